import { type CoreOwed, coreOwed, type Minor, minor } from '@fairlead/money';

interface Exact {
  toString(): string;
}

/** What was issued to an item less what went back, and the old ones that came. */
export interface ItemCores {
  /** Below 0: issued. */
  movements: readonly { quantity: Exact; lot: { id: string; coreChargeMinor: bigint | null } }[];
  cores: readonly { lotId: string; quantity: Exact }[];
}

/** The cores that an item owes for one lot. */
export interface OwedOfLot extends CoreOwed {
  lotId: string;
  /** For one unit. */
  charge: Minor;
}

/** Quantities are kept with three decimals. */
export function inThousandths(quantity: Exact): bigint {
  const [, sign = '', whole = '0', decimals = ''] =
    /^(-?)(\d+)(?:\.(\d{1,3}))?$/.exec(quantity.toString()) ?? [];
  return BigInt(`${sign}${whole}${decimals.padEnd(3, '0')}`);
}

const text = (thousandths: bigint) =>
  `${thousandths / 1000n}.${String(thousandths % 1000n).padStart(3, '0')}`;

/** What an item owes of cores, lot by lot, by the rule of `coreOwed`; nothing for lots that came without a charge. */
export function coresOfItem({ movements, cores }: ItemCores): OwedOfLot[] {
  const taken = new Map<string, { charge: bigint; units: bigint }>();
  for (const { quantity, lot } of movements)
    if (lot.coreChargeMinor !== null) {
      const units = (taken.get(lot.id)?.units ?? 0n) - inThousandths(quantity);
      taken.set(lot.id, { charge: lot.coreChargeMinor, units });
    }
  return [...taken].flatMap(([lotId, { charge, units }]) => {
    const came = cores
      .filter((core) => core.lotId === lotId)
      .reduce((sum, { quantity }) => sum + inThousandths(quantity), 0n);
    const owed = coreOwed({
      charge: minor(charge),
      taken: text(units > 0n ? units : 0n),
      returned: '0',
      handedOver: text(came),
    });
    return owed.quantity === '0' ? [] : [{ lotId, charge: minor(charge), ...owed }];
  });
}
