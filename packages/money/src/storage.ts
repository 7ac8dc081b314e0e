import type { Minor } from './amount.ts';
import { type Currency, currency as knownCurrency } from './currency.ts';
import { lineNet } from './line-net.ts';

/** What a shop charges for an aircraft that stays after it is ready. */
export interface StorageRule {
  /** Whole days after the one on which the owner was told. */
  readonly freeDays: number;
  /** Price of a day, a plain decimal. */
  readonly dayPrice: string;
}

const DAY_MS = 86_400_000;

/**
 * How long an aircraft was stored, and what that comes to by the shop's own rule.
 *
 * Method: civil days between the day on which the owner was told that it is ready and the last day (the one on which it left, or
 * today), less the free ones, never below 0. The day of telling is none, so that day and night, and a clock that is put forward,
 * change nothing. The rule is the shop's own, common practice, no source.
 *
 * @param toldOn civil day, YYYY-MM-DD
 * @param lastOn civil day, YYYY-MM-DD; before `toldOn` nothing was stored
 * @throws RangeError for something that is no day, a number of days that is not whole or below 0, or what `lineNet` throws.
 * @example storageFor({ toldOn: '2026-03-02', lastOn: '2026-03-12', rule: { freeDays: 3, dayPrice: '25' } }, 'USD') // → { days: 7, amount: 17500n }
 */
export function storageFor(
  { toldOn, lastOn, rule }: { toldOn: string; lastOn: string; rule: StorageRule },
  code: Currency,
): { days: number; amount: Minor } {
  const currency = knownCurrency(code);
  const { freeDays, dayPrice } = rule;
  if (!Number.isInteger(freeDays) || freeDays < 0)
    throw new RangeError(`Cannot give ${freeDays} free days: give a whole number of 0 or more`);
  const days = Math.max(0, (dayNumber(lastOn) - dayNumber(toldOn)) / DAY_MS - freeDays);
  return { days, amount: lineNet({ quantity: `${days}`, unitPrice: dayPrice }, currency) };
}

function dayNumber(day: string): number {
  const at = /^\d{4}-\d{2}-\d{2}$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(at) || new Date(at).toISOString().slice(0, 10) !== day)
    throw new RangeError(
      `Cannot count from ${JSON.stringify(day)}: give a civil day as YYYY-MM-DD`,
    );
  return at;
}
