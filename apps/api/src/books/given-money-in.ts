import { currency, formatMoney, minor } from '@fairlead/money';
import { Refused } from '../errors.ts';
import { givenText, sayMinute } from '../given.ts';

const AHEAD_MS = 60_000;
const YEAR_MS = 366 * 86_400_000;

/** By which way money came or went, and when: up to now, and within a year. */
export function givenMoneyIn(
  given: { method: string; paidAt: Date | null },
  now: Date,
): { method: string; paidAt: Date } {
  const method = givenText(given.method, 'method', { least: 1, most: 60 });
  const paidAt = given.paidAt ?? now;
  if (paidAt.getTime() > now.getTime() + AHEAD_MS || paidAt.getTime() < now.getTime() - YEAR_MS)
    throw new Refused(
      'BAD_INPUT',
      `paidAt is ${sayMinute(paidAt)}: needed is a time within the last year, up to now, ${sayMinute(now)}.`,
      'paidAt',
    );
  return { method, paidAt };
}

/** "1,240.00 USD" */
export const sayMoney = (amount: bigint, code: string) =>
  `${formatMoney(minor(amount), currency(code))} ${code}`;
