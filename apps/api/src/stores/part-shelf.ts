import { Prisma, type Tx } from '@fairlead/database';
import { availableOf, reservedFacts } from './reserved.ts';

/** What of a part's lots tells how much of it can be had. */
export const shelfFacts = {
  where: { onHand: { gt: 0 } },
  orderBy: [{ bin: 'asc' }, { id: 'asc' }],
  select: { ...reservedFacts, bin: true, shelfLifeUntil: true },
} satisfies Prisma.Part$lotsArgs;

type ShelfLot = Prisma.LotGetPayload<{ select: (typeof shelfFacts)['select'] }>;

export interface OnShelf {
  /** Units that lie there, whatever their date and whoever they are kept for. */
  onHand: Prisma.Decimal;
  /** Units free for anybody and within their shelf life. */
  free: Prisma.Decimal;
  /** Where those lie. */
  bins: { bin: string; free: Prisma.Decimal }[];
}

/**
 * What can be had of a part: what is reserved for orders or past its date is not.
 *
 * @param today midnight UTC of the shop's civil day; the last day of a lot still counts
 */
export function onShelf(lots: readonly ShelfLot[], today: Date): OnShelf {
  const zero = new Prisma.Decimal(0);
  const usable = lots.flatMap((lot) => {
    const { available } = availableOf(lot);
    const past = lot.shelfLifeUntil !== null && lot.shelfLifeUntil < today;
    return past || available.lessThanOrEqualTo(zero) ? [] : [{ bin: lot.bin, free: available }];
  });
  const bins = new Map<string, Prisma.Decimal>();
  for (const { bin, free } of usable) bins.set(bin, (bins.get(bin) ?? zero).plus(free));
  return {
    onHand: lots.reduce((sum, { onHand }) => sum.plus(onHand), zero),
    free: usable.reduce((sum, { free }) => sum.plus(free), zero),
    bins: [...bins].map(([bin, free]) => ({ bin, free })),
  };
}

/** Where so much of a part lies, in words: "2 in bin C1 and 1 without a place"; "none" where none does. */
export function binWords({ bins }: Pick<OnShelf, 'bins'>): string {
  if (bins.length === 0) return 'none is free';
  const each = bins.map(
    ({ bin, free }, index) =>
      `${free.toFixed()}${index === 0 ? (free.equals(1) ? ' lies' : ' lie') : ''} ${bin === '' ? 'without a place' : `in bin ${bin}`}`,
  );
  return each.join(' and ');
}

/** The parts of these keys with what lies of them on the shelves. */
export const partsOnShelf = (read: Tx, partIds: readonly string[]) =>
  read.part.findMany({
    where: { id: { in: [...partIds] } },
    select: { id: true, number: true, unit: true, lots: shelfFacts },
  });
