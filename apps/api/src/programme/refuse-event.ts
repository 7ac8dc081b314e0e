import { counters } from '@fairlead/airworthiness';
import type { DueEventKind } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { countsFrom, type GivenCounts } from './counts.ts';
import type { DueList } from './due-list.ts';
import { countersAsked, type DueRow, lastOf } from './due-terms.ts';

/** What somebody says happened to something due. */
export interface SaidEvent {
  kind: DueEventKind;
  doneOn: Date;
  tisHundredths: number | null;
  /** The part's own time then; null where it is about no part, or not known. */
  partHundredths: number | null;
  /** The aircraft's counts then, and the part's own. */
  counts: GivenCounts;
  partCounts: GivenCounts;
}

const hours = (hundredths: number) => (hundredths / 100).toFixed(1);

/** Whether the very same compliance is recorded already, so that a repeat is the same. */
export function saidBefore(
  item: DueRow,
  { kind, doneOn, tisHundredths, counts }: SaidEvent,
): boolean {
  const last = lastOf(item);
  return (
    kind === 'complied' &&
    last?.kind === 'complied' &&
    last.doneOn.getTime() === doneOn.getTime() &&
    last.tisHundredths === tisHundredths &&
    counters.every((counter) => last[counter] === counts[counter])
  );
}

/**
 * @param list of the aircraft that it is on; null: the part is on the shelf
 * @throws Refused for what lies in the future, before the last time, or lacks the hours that it counts
 */
export function refuseEvent(
  item: DueRow,
  event: SaidEvent,
  today: Date,
  list: Pick<DueList, 'registration' | 'tisHundredths' | 'counted'> | null,
): void {
  const { kind, doneOn, tisHundredths } = event;
  if (doneOn > today)
    throw new Refused(
      'BAD_INPUT',
      `Done on ${sayDay(doneOn)} was refused: today is ${sayDay(today)}, and what is not done yet is not complied with.`,
      'doneOn',
    );
  if (!list && tisHundredths !== null)
    throw new Refused(
      'BAD_INPUT',
      `“${item.title}” is about a part that is on no aircraft: leave the time in service out; the part’s own time is known.`,
      'tisHundredths',
    );
  const tis = list?.tisHundredths ?? null;
  if (list && tisHundredths !== null && (tisHundredths < 0 || tisHundredths > (tis ?? 0)))
    throw new Refused(
      'BAD_INPUT',
      `${hours(tisHundredths)} h was refused: the newest reading of ${list.registration} is ${tis === null ? 'none' : `${hours(tis)} h`}. Enter the meter reading first.`,
      'tisHundredths',
    );
  refuseCounted(item, event, list);
  if (kind === 'ended') return;
  const byHours =
    item.rule === 'hundred_hour' || item.everyHundredths !== null || item.limitHundredths !== null;
  if (list && byHours && tisHundredths === null)
    throw new Refused(
      'BAD_INPUT',
      `“${item.title}” counts hours: give the time in service at which it was done.`,
      'tisHundredths',
    );
  if (kind === 'terminated' && item.rule !== 'recurring')
    throw new Refused(
      'BAD_INPUT',
      `“${item.title}” is not repeated, so there is no repeat to end: record that it was complied with.`,
      'kind',
    );
  refuseBefore(item, event);
}

/** Counts that the aircraft does not have, or that what is counted lacks. */
function refuseCounted(
  item: DueRow,
  { kind, counts }: SaidEvent,
  list: Pick<DueList, 'registration' | 'counted'> | null,
): void {
  const asked = countersAsked(item);
  for (const counter of counters) {
    const given = counts[counter];
    const known = list?.counted.counts[counter] ?? null;
    if (given !== null && !list)
      throw new Refused(
        'BAD_INPUT',
        `“${item.title}” is about a part that is on no aircraft: leave ${counter} out; the part’s own are known.`,
        counter,
      );
    if (given !== null && given > (known ?? -1))
      throw new Refused(
        'BAD_INPUT',
        `${given} ${counter} were refused: the newest count of ${list?.registration} is ${known ?? 'none'}. Enter it with a meter reading first.`,
        counter,
      );
    if (list && asked.includes(counter) && given === null && kind !== 'ended')
      throw new Refused(
        'BAD_INPUT',
        `“${item.title}” counts ${counter}: give how many there were when it was done.`,
        counter,
      );
  }
}

/** Hours of another aircraft are not held against this one's: of a part, its own are. */
function refuseBefore(
  item: DueRow,
  { doneOn, tisHundredths, partHundredths, counts, partCounts }: SaidEvent,
): void {
  const last = lastOf(item);
  if (!last) return;
  const [now, then] = item.component
    ? [partHundredths, last.partHundredths]
    : [tisHundredths, last.tisHundredths];
  const before = item.component ? countsFrom('part', last) : last;
  const since = item.component ? partCounts : counts;
  const back = counters.some((counter) => (since[counter] ?? Infinity) < (before[counter] ?? 0));
  if (back || doneOn < last.doneOn || (now ?? Infinity) < (then ?? 0))
    throw new Refused(
      'BAD_INPUT',
      `It was last done on ${sayDay(last.doneOn)}${last.tisHundredths === null ? '' : ` at ${hours(last.tisHundredths)} h`}: what came before that changes nothing that falls due.`,
      'doneOn',
    );
}
