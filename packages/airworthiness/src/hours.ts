declare const unit: unique symbol;

/** Time in service in whole hundredths of an hour: 246300 is 2463.00 h. */
export type TimeInService = number & { readonly [unit]: 'hundredths of an hour' };

// A thousand aircraft lives; above it somebody has typed a serial number into a meter field.
const MOST = 100_000_000;

/**
 * Brands whole hundredths of an hour.
 *
 * @throws RangeError unless it is a whole number from 0 to 100,000,000 (a million hours).
 * @example hundredths(246300) // → 246300
 */
export function hundredths(value: number): TimeInService {
  if (!Number.isSafeInteger(value) || value < 0 || value > MOST) {
    throw new RangeError(
      `Cannot use ${value} hundredths of an hour: give a whole number from 0 to ${MOST}`,
    );
  }
  return value as TimeInService;
}

/**
 * Reads hours as they stand on a meter or in a record book, exactly.
 *
 * @param text digits with at most two decimals: "2463" or "2463.0" or "2463.05".
 * @throws RangeError for anything else.
 * @example parseHours('2450.3') // → 245030
 */
export function parseHours(text: string): TimeInService {
  const [, whole, decimals = ''] = /^(\d{1,7})(?:\.(\d{1,2}))?$/.exec(text) ?? [];
  if (whole === undefined) {
    throw new RangeError(
      `Cannot read ${JSON.stringify(text)} as hours: give digits with at most two decimals, such as "2450.3"`,
    );
  }
  return hundredths(Number(whole) * 100 + Number(decimals.padEnd(2, '0')));
}

/**
 * Hours with both decimals, so that a record reads back as the figure that was kept.
 *
 * @example formatHours(parseHours('2450.3')) // → '2450.30'
 */
export function formatHours(time: TimeInService): string {
  return `${Math.floor(time / 100)}.${String(time % 100).padStart(2, '0')}`;
}
