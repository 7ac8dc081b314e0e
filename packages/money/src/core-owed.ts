import { type Minor, minor } from './amount.ts';
import { divideToWhole, exact, toWhole } from './exact.ts';

/** What happened to the units of one lot at one place, and what is charged for a core of them. */
export interface CoreFacts {
  /** For one unit, minor units; 0 or more. */
  readonly charge: Minor;
  /** Units that a core is owed for: issued to a customer's work, or delivered by a supplier. A plain decimal. */
  readonly taken: string;
  /** Units of those that went back unused, so that no core is owed for them. */
  readonly returned: string;
  /** Old ones handed over. */
  readonly handedOver: string;
}

export interface CoreOwed {
  /** Old ones still to be handed over; never less than none. A plain decimal. */
  readonly quantity: string;
  /** What stays charged until they are. */
  readonly amount: Minor;
}

/**
 * The cores still owed, and the charge that stands for them.
 *
 * Formula: quantity = max(0, taken − returned − handed over); amount = quantity × charge, rounded half away from zero
 * to minor units (exchange parts and their core charges are common practice, no source). A core handed over for a unit that came
 * back unused counts for the next one.
 *
 * @throws RangeError for text that is no decimal, a quantity below 0, or a charge below 0.
 * @example coreOwed({ charge: minor(25000n), taken: '3', returned: '1', handedOver: '0' }) // → { quantity: '2', amount: 50000n }
 * @example coreOwed({ charge: minor(25000n), taken: '1', returned: '0', handedOver: '1' }) // → { quantity: '0', amount: 0n }
 */
export function coreOwed({ charge, taken, returned, handedOver }: CoreFacts): CoreOwed {
  if (charge < 0n) {
    throw new RangeError(`Cannot charge ${charge} minor units for a core: give 0 or more`);
  }
  const [took, gave, handed] = [
    exact(taken, 'units taken'),
    exact(returned, 'units returned'),
    exact(handedOver, 'cores handed over'),
  ];
  for (const value of [took, gave, handed]) {
    if (value.isNegative()) {
      throw new RangeError(`Cannot count ${value.toFixed()} units: give 0 or more`);
    }
  }
  const left = took.minus(gave).minus(handed);
  if (left.lte(0)) return { quantity: '0', amount: minor(0n) };
  const places = left.decimalPlaces();
  return {
    quantity: left.toFixed(),
    amount: minor(divideToWhole(charge * toWhole(left, places), 10n ** BigInt(places))),
  };
}
