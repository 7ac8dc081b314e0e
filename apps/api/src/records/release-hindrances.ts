import type { ReleaseOutcome } from '@fairlead/database';
import { beforeRelease, unclosed } from '../safety/queries.ts';
import { findingClass, findingState, itemState } from '../states.ts';
import { goesInto } from './book-of.ts';
import { finished } from './compose.ts';
import { type OrderToSign, standing } from './order-to-sign.ts';

/** A record book of the aircraft, as an order needs it. */
export interface BookToSign {
  book: OrderToSign['aircraft']['books'][number];
  /** Whether the order needs an entry in it. */
  needed: boolean;
  /** Finished items that go into it and stand in no entry yet. */
  left: number;
  signed: boolean;
}

/**
 * Which books an order needs an entry in: those whose chapters (JASC) had work done, and with an inspection always the
 * airframe's. Where a book has a twin, the other engine's, an inspection needs both; other work needs to stand in one
 * of them. Common practice, no source.
 */
export function booksToSign(order: OrderToSign): BookToSign[] {
  const { books } = order.aircraft;
  const inspected = order.inspection !== null;
  const entered = new Set(
    standing(order).flatMap(({ items }) => items.map(({ itemId }) => itemId)),
  );
  return books.map((book) => {
    const done = order.items.filter(
      (item) => goesInto(item.jasc, book.kind, books) && finished(item),
    );
    const left = done.filter(({ id }) => !entered.has(id)).length;
    const signed = standing(order, book.id).length > 0;
    const worked = done.length > 0 && (inspected || signed || left > 0);
    return { book, needed: worked || (inspected && book.kind === 'airframe'), left, signed };
  });
}

/** How the aircraft goes: not airworthy when an entry says so, or while anything unairworthy is not corrected. */
export function outcomeOf(order: OrderToSign, today: Date): ReleaseOutcome {
  const says = standing(order).some(({ outcome }) => outcome === 'not_airworthy_list_given');
  return says || uncorrected(order, today).length > 0 ? 'not_airworthy_list_given' : 'airworthy';
}

const uncorrected = (order: OrderToSign, today: Date) =>
  order.findings.filter(
    (finding) =>
      findingClass(finding) === 'unairworthy' && findingState(finding, today) !== 'corrected',
  );

const say: Record<ReleaseOutcome, string> = {
  airworthy: 'airworthy',
  not_airworthy_list_given: 'not airworthy, list given',
};

/** Everything that keeps an aircraft from being released with an outcome, each in one sentence. */
export function releaseHindrances(
  order: OrderToSign,
  outcome: ReleaseOutcome,
  today: Date,
): string[] {
  const clocks = order.items.flatMap(({ position, title, stretches }) =>
    stretches
      .filter(({ endedAt }) => !endedAt)
      .map(
        ({ person }) =>
          `the clock of ${person.name} runs on item ${position}, “${title}”: it is stopped first`,
      ),
  );
  const open = order.items
    .filter((item) => !['inspected', 'put_off'].includes(itemState(item)))
    .map(
      ({ position, title, critical }) =>
        `item ${position}, “${title}”, is neither inspected${critical ? ' by two people' : ''} nor put off`,
    );
  const corrected = order.findings.filter(
    (finding) => findingState(finding, today) === 'corrected',
  );
  const left = [
    ...unclosed(order).map(({ hinders }) => hinders),
    ...beforeRelease(order, new Set(corrected.map(({ id }) => id))),
  ];
  const books = booksToSign(order);
  const unsigned = [
    ...new Set(
      books
        .filter(({ needed, signed }) => needed && !signed)
        .map(
          ({ book }) =>
            `the entry in the ${book.kind} book ${titlesFor(order, book)} is not signed (14 CFR 43.5)`,
        ),
    ),
  ];
  const unentered = books
    .filter(({ signed, left: count }) => signed && count > 0)
    .map(
      ({ book, left: count }) =>
        `${count} finished item(s) stand in no entry of the ${book.kind} book “${book.title}” (14 CFR 43.9)`,
    );
  const entries = standing(order)
    .filter((entry) => entry.outcome === 'not_airworthy_list_given' && outcome === 'airworthy')
    .map(
      ({ signedBy }) => `the entry signed by ${signedBy.name} says ${say.not_airworthy_list_given}`,
    );
  const unairworthy =
    outcome === 'airworthy'
      ? uncorrected(order, today).map(
          ({ number, title }) => `finding ${number}, “${title}”, is unairworthy and not corrected`,
        )
      : [];
  const nothing =
    outcome === 'not_airworthy_list_given' && outcomeOf(order, today) === 'airworthy'
      ? [`nothing unairworthy is open and every entry says ${say.airworthy}`]
      : [];
  return [
    ...clocks,
    ...open,
    ...left,
    ...unsigned,
    ...unentered,
    ...entries,
    ...unairworthy,
    ...nothing,
  ];
}

/** "Left engine" or "Right engine": without an inspection, one of two like books is enough. */
function titlesFor(
  { aircraft, inspection }: OrderToSign,
  { kind, title }: BookToSign['book'],
): string {
  const twins = inspection ? [] : aircraft.books.filter((book) => book.kind === kind);
  return twins.length > 1 ? twins.map((book) => `“${book.title}”`).join(' or ') : `“${title}”`;
}
