import { type Minor, minor } from './amount.ts';
import { type Currency, minorUnits } from './currency.ts';
import { divideToWhole, exact, toWhole } from './exact.ts';
import { parseAmount, roundToMinor } from './read-amount.ts';

/** Something taken off or put on, as an amount; EN 16931 calls it an allowance or a charge. */
export interface Adjustment {
  /** A plain decimal in the document's currency, normally positive: "12.00". */
  readonly amount: string;
  readonly reason?: string;
}

/** What one line of a quote or invoice multiplies and adds. */
export interface PricedLine {
  /** How many; may be negative for something returned. */
  readonly quantity: string;
  /** What the base quantity costs, with as many decimals as the price list has. */
  readonly unitPrice: string;
  /** The quantity that the price is for, above zero; 1 when left out. */
  readonly priceBaseQuantity?: string;
  readonly allowances?: readonly Adjustment[];
  readonly charges?: readonly Adjustment[];
}

/**
 * The net amount of one line, before tax.
 *
 * Formula: round(quantity × unit price ÷ base quantity) − allowances + charges, rounded once, half
 * away from zero, to the currency's minor units (EN 16931, BT-131 as built from BT-129, BT-146,
 * BT-149, BT-136 and BT-141; two decimals by BR-DEC-23).
 *
 * @throws RangeError for text that is no decimal, a base quantity of zero or less, or an allowance
 *   or charge with more decimals than the currency has.
 * @example lineNet({ quantity: '100', unitPrice: '0.1212' }, 'EUR') // → 1212n
 * @example lineNet({ quantity: '2.4', unitPrice: '98.75', allowances: [{ amount: '7.00' }] }, 'USD') // → 23000n
 */
export function lineNet(line: PricedLine, currency: Currency): Minor {
  const product = exact(line.quantity, 'quantity').mul(exact(line.unitPrice, 'unit price'));
  const adjustments =
    sumOfAdjustments(line.charges, currency) - sumOfAdjustments(line.allowances, currency);
  if (line.priceBaseQuantity === undefined) {
    return minor(roundToMinor(product, currency) + adjustments);
  }
  const base = exact(line.priceBaseQuantity, 'price base quantity');
  if (base.lte(0)) {
    throw new RangeError(
      `Cannot price per ${line.priceBaseQuantity}: give a price base quantity above 0`,
    );
  }
  // Both sides on the same power of ten, so that the division below is one of whole numbers.
  const places = product.decimalPlaces() + base.decimalPlaces();
  const dividend = toWhole(product, places) * 10n ** BigInt(minorUnits[currency]);
  return minor(divideToWhole(dividend, toWhole(base, places)) + adjustments);
}

/** Adds allowances or charges; none add to 0. */
export function sumOfAdjustments(
  adjustments: readonly Adjustment[] | undefined,
  currency: Currency,
): bigint {
  return (adjustments ?? []).reduce(
    (sum, { amount }) => sum + parseAmount(amount, currency, 'allowance or charge'),
    0n,
  );
}
