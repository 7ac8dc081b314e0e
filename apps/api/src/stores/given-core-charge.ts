import { Refused } from '../errors.ts';

/** The largest core charge that is taken: far above any, far below what a column holds. */
const MOST_CHARGE = 10_000_000_000n;

/** What is charged for one unit until the old one comes back, minor units; null: nothing is. */
export function givenCoreCharge<C extends bigint | null | undefined>(charge: C): C {
  if (typeof charge === 'bigint' && (charge <= 0n || charge > MOST_CHARGE))
    throw new Refused(
      'BAD_INPUT',
      `coreCharge is ${charge} minor units: needed is more than 0 to ${MOST_CHARGE}, or none.`,
      'coreCharge',
    );
  return charge;
}
