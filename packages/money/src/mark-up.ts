import { divideToWhole, exact, toWhole } from './exact.ts';

/** From this cost of one unit up to the next band's, what is put on it. Plain decimals. */
export interface MarkUpBand {
  readonly costFrom: string;
  readonly percent: string;
}

/** Decimals that a unit price is kept with. */
const PLACES = 4;

/**
 * The band that a cost is in: the one that begins highest, not above it.
 *
 * @param cost of one unit, a plain decimal of 0 or more
 * @throws RangeError where no band begins at or below the cost, for text that is no decimal, or a cost below 0
 * @example markUpBand('12', [{ costFrom: '0', percent: '60' }, { costFrom: '10', percent: '35' }]) // → { costFrom: '10', percent: '35' }
 */
export function markUpBand<Band extends MarkUpBand>(cost: string, bands: readonly Band[]): Band {
  const paid = exact(cost, 'cost');
  if (paid.lt(0)) throw new RangeError(`Cannot mark up a cost of ${cost}: give 0 or more`);
  const within = bands.filter(({ costFrom }) => exact(costFrom, 'beginning of a band').lte(paid));
  const [first, ...others] = within;
  if (!first)
    throw new RangeError(`No band begins at or below a cost of ${cost}: let one begin at 0`);
  return others.reduce(
    (highest, band) => (exact(band.costFrom).gt(exact(highest.costFrom)) ? band : highest),
    first,
  );
}

/**
 * The price of one unit from its cost: cost × (1 + percent ÷ 100), to four decimals, half away from zero. Marking up
 * by bands of cost is common practice, no source. A price may fall where a cost rises into a band with less on it.
 *
 * @param cost of one unit, a plain decimal of 0 or more
 * @param percent a plain decimal of 0 or more
 * @throws RangeError for text that is no decimal, or a cost or a mark-up below 0
 * @example markedUpUnit('0.035', '60') // → '0.056'
 * @example markedUpUnit('12', '35') // → '16.2'
 */
export function markedUpUnit(cost: string, percent: string): string {
  const paid = exact(cost, 'cost');
  const put = exact(percent, 'percent');
  if (paid.lt(0) || put.lt(0))
    throw new RangeError(`Cannot mark up ${cost} by ${percent} per cent: give 0 or more of both`);
  const whole = paid.mul(put.plus(100));
  const places = whole.decimalPlaces();
  const scaled = divideToWhole(
    toWhole(whole, places) * 10n ** BigInt(PLACES),
    100n * 10n ** BigInt(places),
  );
  return exact(scaled.toString())
    .div(10 ** PLACES)
    .toFixed();
}
