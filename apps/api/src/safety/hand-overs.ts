import type { Prisma } from '@fairlead/database';
import { sayMinute } from '../given.ts';

/** What is needed to say who left what, and whether somebody took it over. */
export const handOverFacts = {
  loose: true,
  notDone: true,
  at: true,
  by: { select: { name: true } },
  item: { select: { position: true, title: true } },
  takenOver: { select: { id: true } },
} satisfies Prisma.HandOverSelect;

export type HandOverFacts = Prisma.HandOverGetPayload<{ select: typeof handOverFacts }>;

/** Left, and nobody has taken it over. */
export const notTakenOver = { takenOver: { is: null } } satisfies Prisma.HandOverWhereInput;

/** Ruan Teasel stopped at item 3 on 2031-05-04 16:10 UTC (loose: nuts 3 and 4) and nobody has taken it over */
export function sayHandOver({ by, at, loose, item }: HandOverFacts): string {
  const what = item
    ? `stopped at item ${item.position}, “${item.title}”,`
    : 'handed the aircraft over';
  return `${by.name} ${what} on ${sayMinute(at)}${loose === '' ? '' : ` (loose: ${loose})`} and nobody has taken it over`;
}
