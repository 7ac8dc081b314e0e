import type { RecordBookKind } from '@fairlead/database';
import { civilDay } from '../civil-day.ts';
import { findingClass, findingState } from '../states.ts';
import { goesInto } from './book-of.ts';
import type { ItemToSign, OrderToSign } from './order-to-sign.ts';

/** The last word on an item since it was last done. */
function sinceDone({ events }: ItemToSign) {
  return events.slice(
    Math.max(
      0,
      events.findLastIndex(({ kind }) => kind === 'done'),
    ),
  );
}

export const byOf = (item: ItemToSign, kind: 'initialled' | 'second_inspected') =>
  sinceDone(item).find((event) => event.kind === kind)?.by.name;

/** Whoever clocked on it, or said that it was done. */
export function performers(item: ItemToSign): string[] {
  const said = item.events.filter(({ kind }) => kind === 'done').map(({ by }) => by.name);
  return [...new Set([...item.stretches.map(({ person }) => person.name), ...said])];
}

/** "Exhaust collector replaced. Corrects: cracked collector." */
export function describe(item: ItemToSign, { findings }: OrderToSign): string {
  const words = item.events.findLast(({ kind }) => kind === 'done')?.workDone.trim() ?? '';
  const corrected = findings.find(({ id }) => id === item.findingId);
  if (words === '') return '';
  return `${item.title}: ${/[.!?]$/.test(words) ? words : `${words}.`}${corrected ? ` Corrects finding ${corrected.number}: ${corrected.title}.` : ''}`;
}

/** The civil day on which the last of the work was finished; null while nothing is. */
export function lastDay(done: readonly ItemToSign[], timeZone: string): Date | null {
  const times = done.flatMap(
    (item) => item.events.findLast(({ kind }) => kind === 'done')?.at.getTime() ?? [],
  );
  return times.length === 0 ? null : civilDay(new Date(Math.max(...times)), timeZone);
}

/** How far an inspection went, by the list that it was made by. */
export function extentOf({ quotes, aircraft, items }: OrderToSign, kind: RecordBookKind): string {
  const list = quotes.map((quote) => quote.package).find((pack) => pack?.inspection);
  const count = items.filter((item) => goesInto(item.jasc, kind, aircraft.books)).length;
  const by = list
    ? `by the shop's list “${list.title}”, revision ${list.revision}${list.madeFrom ? `, made from ${list.madeFrom}` : ''}`
    : `${count} items of the shop's list`;
  return kind === 'airframe' ? `the whole aircraft, ${by}` : `the ${kind}, ${by}`;
}

/** Findings that concern an entry: all of the visit where it speaks of the aircraft's inspection, else those of its book. */
export function findingsFor(
  order: OrderToSign,
  kind: RecordBookKind,
  inspected: boolean,
  today: Date,
) {
  return order.findings
    .filter(({ item, corrections }) => {
      const jasc = corrections[0]?.jasc ?? item?.jasc;
      return (
        inspected ||
        (jasc === undefined ? kind === 'airframe' : goesInto(jasc, kind, order.aircraft.books))
      );
    })
    .map((finding) => ({
      id: finding.id,
      title: `${finding.title} (finding ${finding.number})`,
      words: finding.words.trim(),
      class: findingClass(finding),
      state: findingState(finding, today),
    }));
}
