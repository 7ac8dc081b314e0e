import { type Minor, minor, nothing } from './amount.ts';

/** How far past the owner's yes the shop may go without asking: its own rule, off unless it is set. */
export interface OverrunRule {
  /** So much, net; left out: no sum limits it. */
  readonly sum?: Minor | undefined;
  /** So many per cent of what was agreed, a plain decimal with at most two decimals; left out: no share limits it. */
  readonly percent?: string | undefined;
}

/**
 * How much may be worked and billed past what was agreed: the smaller of the sum and the share, the share rounded down to
 * a whole minor unit, so that it is never more than the rule. Nothing where nothing was agreed, or where the rule is off.
 * (Common practice; some places have laws of their own on how far a bill may pass an estimate. No source.)
 *
 * @throws RangeError for a share below 0, above 100, or with more than two decimals
 * @example overrunAllowed(minor(190000n), { sum: minor(10000n), percent: '10' }) // → 10000n
 */
export function overrunAllowed(agreed: Minor, { sum, percent }: OverrunRule): Minor {
  if (agreed <= 0n || (sum === undefined && percent === undefined)) return nothing;
  const share = percent === undefined ? undefined : (agreed * hundredthsOf(percent)) / 10_000n;
  if (sum === undefined) return minor(share ?? 0n);
  return share === undefined || sum < share ? sum : minor(share);
}

function hundredthsOf(percent: string): bigint {
  const [, whole, decimals = ''] = /^(\d{1,3})(?:\.(\d{1,2}))?$/.exec(percent) ?? [];
  const hundredths =
    whole === undefined ? -1n : BigInt(whole) * 100n + BigInt(decimals.padEnd(2, '0'));
  if (hundredths < 0n || hundredths > 10_000n)
    throw new RangeError(
      `Cannot allow an overrun of ${percent} per cent: give 0 to 100 with at most two decimals`,
    );
  return hundredths;
}
