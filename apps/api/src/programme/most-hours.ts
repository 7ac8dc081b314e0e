/**
 * More hundredths of an hour than any airframe has flown, 100,000 h (common practice, no source): above it somebody typed another
 * number into a field for hours. Sums of a few such figures can still be kept and reckoned with.
 */
export const MOST_HUNDREDTHS = 10_000_000;
