import type { Tx } from '@fairlead/database';
import { binWords, type OnShelf, onShelf, partsOnShelf } from './part-shelf.ts';
import { standInsOf } from './stand-ins.ts';

/**
 * Says that a part is not there, and what is there in its stead: "None on the shelf; superseded by B-2, of which 2 lie in
 * bin C1". Null where enough of it is free.
 *
 * @param own the part as it lies on the shelves, and what is said of it being on order
 * @param wanted how many are wanted
 */
export async function shortageWords(
  read: Tx,
  partId: string,
  own: Pick<OnShelf, 'free'> & { ordered: string },
  { wanted, today }: { wanted: string; today: Date },
): Promise<string | null> {
  if (own.free.greaterThanOrEqualTo(wanted)) return null;
  const there = own.free.isZero()
    ? 'None on the shelf'
    : `${own.free.toFixed()} free on the shelf where ${wanted} are wanted`;
  const standIns = await standInsOf(read, partId);
  const parts = await partsOnShelf(
    read,
    standIns.map(({ partId: id }) => id),
  );
  const each = standIns.flatMap(({ partId: id, kind }) => {
    const part = parts.find((one) => one.id === id);
    if (!part) return [];
    const word = kind === 'superseded' ? 'superseded by' : 'alternate';
    return [`${word} ${part.number}, of which ${binWords(onShelf(part.lots, today))}`];
  });
  const coming = own.ordered === '' ? [] : [own.ordered];
  return `${[there, ...coming, ...each].join('; ')}.`;
}
