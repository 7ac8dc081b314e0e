import type { ChargeKind, TaxCategory } from '@fairlead/database';
import { type Minor, markedUp, minor, nothing, suppliesFor } from '@fairlead/money';
import { Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import type { PriceList } from './price-list.ts';

/** What is charged besides work and parts, as somebody wants it quoted. Amounts are net, in minor units. */
export interface WantedCharge {
  kind: ChargeKind;
  title: string | null;
  /** What it is sold for; null where it follows from its cost, or from the labour. */
  price: bigint | null;
  /** What it costs the shop. */
  cost: bigint | null;
  /** Mark-up on the cost; of supplies, the share of the likely labour. Per cent. */
  percent: string | null;
  /** Of supplies: no more than this. */
  atMost: bigint | null;
}

/** A charge with its price. */
export interface OfferedCharge {
  kind: ChargeKind;
  title: string;
  category: TaxCategory;
  price: Minor;
  cost: bigint | null;
  percent: string | null;
  /** Of supplies: no more than this. */
  cap: bigint | null;
  /** From when the shop's rule holds that it was priced by; null: somebody named the price. */
  from: Date | null;
}

const usual: Record<ChargeKind, { title: string; category: TaxCategory }> = {
  outside_work: { title: '', category: 'labour' },
  freight: { title: 'Freight', category: 'supplies' },
  disposal: { title: 'Disposal', category: 'supplies' },
  call_out: { title: 'Call-out', category: 'labour' },
  supplies: { title: 'Shop supplies', category: 'supplies' },
  other: { title: '', category: 'supplies' },
  core: { title: '', category: 'parts' },
};

export const MOST_CHARGES = 30;
const MOST_MINOR = 1_000_000_000_00n;

const bad = (message: string) => new Refused('BAD_INPUT', message, 'charges');

/**
 * Prices what is charged besides work and parts. A charge is firm: what the owner agrees to is what is billed.
 *
 * @param labour what all work likely comes to
 */
export function priceCharges(
  wanted: readonly WantedCharge[],
  labour: Minor,
  { currency, supplies }: PriceList,
): OfferedCharge[] {
  if (wanted.length > MOST_CHARGES)
    throw bad(`${wanted.length} charges are too many for one quote: at most ${MOST_CHARGES}.`);
  if (wanted.filter(({ kind }) => kind === 'supplies').length > 1)
    throw bad('Shop supplies are named twice: name them once.');
  if (wanted.some(({ kind }) => kind === 'core'))
    throw bad(
      'A core is charged with its part, by what the part says: leave it out of the charges.',
    );
  return wanted.map((named) => {
    const { charge, from } = byRule(named, supplies);
    const { kind, cost } = charge;
    const { category } = usual[kind];
    const percent =
      charge.percent === null
        ? null
        : givenQuantity(charge.percent, 'percent', { most: 1000, decimals: 4, zero: true });
    const title = titleOf(charge);
    refuseAmounts(charge, title);
    const price =
      kind === 'supplies' && percent !== null
        ? suppliesFor(
            { labour, percent, ...(charge.atMost !== null && { atMost: minor(charge.atMost) }) },
            currency,
          )
        : charge.price !== null
          ? minor(charge.price)
          : markedUp(minor(cost ?? 0n), percent ?? '0', currency);
    if (price <= nothing || price > MOST_MINOR)
      throw bad(
        `"${title}" comes to ${price} minor units: needed is more than 0, and at most ${MOST_MINOR}.`,
      );
    return { kind, title, category, price, cost, percent, cap: charge.atMost, from };
  });
}

/** Shop supplies of which nothing is said are priced by the shop's own rule. */
function byRule(
  charge: WantedCharge,
  supplies: PriceList['supplies'],
): { charge: WantedCharge; from: Date | null } {
  const { kind, price, percent, atMost } = charge;
  if (kind !== 'supplies' || price !== null || percent !== null || supplies === null)
    return { charge, from: null };
  return {
    charge: { ...charge, percent: supplies.percent, atMost: atMost ?? supplies.cap },
    from: supplies.from,
  };
}

function titleOf({ kind, title }: WantedCharge): string {
  const given = (title ?? '').trim();
  return given === '' && usual[kind].title !== ''
    ? usual[kind].title
    : givenText(given, 'charges', { least: 3, most: 200 });
}

/** One way to a price, and no more than one. */
function refuseAmounts({ kind, price, cost, percent, atMost }: WantedCharge, title: string): void {
  const below = [price, cost, atMost].find((amount) => amount !== null && amount < 0n);
  if (below !== undefined)
    throw bad(`"${title}" has ${below} minor units: needed are amounts of 0 or more.`);
  if (atMost !== null && kind !== 'supplies')
    throw bad(`"${title}" has a cap, which only shop supplies have: leave it out.`);
  if (kind === 'supplies' ? cost !== null : cost === null && percent !== null)
    throw bad(
      kind === 'supplies'
        ? 'Shop supplies have no cost of their own: needed is a share of the labour, or a price.'
        : `"${title}" has a mark-up and no cost: needed is what it costs the shop, or a price.`,
    );
  if ((price === null) === (kind === 'supplies' ? percent === null : cost === null))
    throw bad(
      `"${title}" needs one of a price and ${kind === 'supplies' ? 'a share of the labour' : 'a cost'}: ${price === null ? 'neither is' : 'both are'} given${kind === 'supplies' && price === null ? ', and the shop has no rule for its supplies' : ''}.`,
    );
}
