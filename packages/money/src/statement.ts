import { type Minor, minor } from './amount.ts';

/** Something that moved an account: above 0 it is owed more, below 0 less, 0 it only says what happened. */
export interface AccountEntry {
  /** YYYY-MM-DD */
  readonly on: string;
  readonly amount: Minor;
}

export type StatedEntry<Entry extends AccountEntry> = Entry & { readonly balance: Minor };

export interface Statement<Entry extends AccountEntry> {
  /** What stood before the first day. */
  readonly opening: Minor;
  /** In the order of their days, each with what stands after it. */
  readonly entries: readonly StatedEntry<Entry>[];
  /** What stands at the end of the last day; below 0 the payer has more with the shop than they owe. */
  readonly closing: Minor;
}

const byDay = (one: AccountEntry, other: AccountEntry) =>
  one.on < other.on ? -1 : one.on > other.on ? 1 : 0;

/**
 * A statement of account between two days, both included: opening balance + all entries = closing balance, exactly. Entries of
 * one day stay in the order given. Whoever asks for two stretches that join finds the one's closing as the other's opening.
 *
 * @param entries of one account in one currency, all that there ever were up to the last day
 * @param from YYYY-MM-DD
 * @param until YYYY-MM-DD, not before `from`
 * @throws RangeError where the stretch ends before it begins
 * @example statement([{ on: '2031-05-01', amount: minor(100n) }, { on: '2031-05-09', amount: minor(-40n) }], '2031-05-02', '2031-05-31') // → { opening: 100n, entries: [{ on: '2031-05-09', amount: -40n, balance: 60n }], closing: 60n }
 */
export function statement<Entry extends AccountEntry>(
  entries: readonly Entry[],
  from: string,
  until: string,
): Statement<Entry> {
  if (until < from)
    throw new RangeError(`A statement from ${from} to ${until} ends before it begins`);
  const inTurn = [...entries].sort(byDay);
  let balance = 0n;
  for (const { on, amount } of inTurn) if (on < from) balance += amount;
  const opening = minor(balance);
  const stated = inTurn
    .filter(({ on }) => on >= from && on <= until)
    .map((entry) => {
      balance += entry.amount;
      return { ...entry, balance: minor(balance) };
    });
  return { opening, entries: stated, closing: minor(balance) };
}
