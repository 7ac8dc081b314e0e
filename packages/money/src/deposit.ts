import { type Minor, minor } from './amount.ts';

/** What came in before there was an invoice, and what went of it since. */
export interface DepositAccount {
  readonly amount: Minor;
  /** Set against invoices; below 0: freed again, since its invoice was credited. */
  readonly setAgainst: readonly Minor[];
  /** Paid back, each more than 0. */
  readonly refunds: readonly Minor[];
}

/**
 * What is left of a deposit: to be set against an invoice, or paid back.
 *
 * @throws RangeError where more went than came in, or came back than went: the books are wrong then
 * @example depositLeft({ amount: minor(500n), setAgainst: [minor(300n), minor(-300n), minor(120n)], refunds: [minor(80n)] }) // → 300n
 */
export function depositLeft({ amount, setAgainst, refunds }: DepositAccount): Minor {
  const used = setAgainst.reduce((sum, each) => sum + each, 0n);
  const back = refunds.reduce((sum, each) => sum + each, 0n);
  const left = amount - used - back;
  if (used < 0n || left < 0n || left > amount)
    throw new RangeError(
      `Of a deposit of ${amount}, ${used} were set against invoices and ${back} paid back`,
    );
  return minor(left);
}

/**
 * Sets deposits against an invoice, the oldest first, until it is covered or they are used up.
 *
 * @param left what is left of each, none below 0
 * @param owed what is owed on the invoice; nothing is set against one on which nothing is owed
 * @returns so much of each, in the same order; their sum is the smaller of `owed` and all that is left
 * @example setDeposits([minor(300n), minor(500n)], minor(450n)) // → [300n, 150n]
 */
export function setDeposits(left: readonly Minor[], owed: Minor): Minor[] {
  let rest: bigint = owed > 0n ? owed : 0n;
  return left.map((each) => {
    if (each < 0n) throw new RangeError(`Of a deposit ${each} cannot be left`);
    const set = each < rest ? each : rest;
    rest -= set;
    return minor(set);
  });
}
