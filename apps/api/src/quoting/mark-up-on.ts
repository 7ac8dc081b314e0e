import type { Tx } from '@fairlead/database';
import type { MarkUp } from '../part-price.ts';

/** How the cost of parts without a price of their own is marked up on a day; null: the shop has said nothing of that. */
export async function markUpOn(read: Tx, day: Date): Promise<MarkUp | null> {
  const list = await read.markUpList.findFirst({
    where: { validFrom: { lte: day } },
    orderBy: [{ validFrom: 'desc' }, { id: 'desc' }],
    select: { validFrom: true, bands: { select: { costFrom: true, percent: true } } },
  });
  return (
    list && {
      from: list.validFrom,
      bands: list.bands.map(({ costFrom, percent }) => ({
        costFrom: costFrom.toFixed(),
        percent: percent.toFixed(),
      })),
    }
  );
}
