import { hundredths, type TimeInService } from '@fairlead/airworthiness';
import type { Prisma } from '@fairlead/database';
import { historyOf, partHistoryFacts } from './due-terms.ts';

/** A part's stay on an aircraft, with what its own time at both ends follows from. */
export const partMoveFacts = {
  ...{ id: true, position: true, parentId: true, fittedAt: true, removedAt: true },
  ...{ aircraftTisHundredths: true, removedTisHundredths: true, removedWithParent: true },
  handlings: {
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { side: true, itemId: true, disposition: true, words: true },
  },
  component: {
    select: {
      ...partHistoryFacts,
      ...{ sinceOverhaulHundredths: true, lifeLimitHundredths: true },
      fittings: {
        ...partHistoryFacts.fittings,
        select: { ...partHistoryFacts.fittings.select, id: true, fittedAt: true },
      },
      dueItems: {
        where: { kind: { in: ['overhaul', 'limit'] } },
        select: {
          ...{ kind: true, limitHundredths: true },
          events: {
            where: { kind: { not: 'ended' }, partHundredths: { not: null } },
            select: { partHundredths: true },
          },
        },
      },
    },
  },
} satisfies Prisma.ComponentFittingSelect;
export type PartMove = Prisma.ComponentFittingGetPayload<{ select: typeof partMoveFacts }>;

export interface PartLifeThen {
  lifeLimited: boolean;
  life: TimeInService | undefined;
  overhauled: boolean;
  sinceNew: TimeInService | undefined;
  sinceOverhaul: TimeInService | undefined;
}

/** A part's life status as one of its stays began or ended; what cannot be told is undefined. */
export function partLifeThen({ id, component }: PartMove, side: 'on' | 'off'): PartLifeThen {
  const { dueItems, lifeLimitHundredths, sinceOverhaulHundredths, tisHundredths } = component;
  const of = (kind: 'overhaul' | 'limit') => dueItems.filter((item) => item.kind === kind);
  const limits = [lifeLimitHundredths, ...of('limit').map((item) => item.limitHundredths)];
  const known = limits.filter((limit) => limit !== null);
  const overhauled = of('overhaul');
  const own = ownTime(component, id, side);
  const since = (): number | undefined => {
    if (own === null) return undefined;
    const done = overhauled
      .flatMap(({ events }) => events.map(({ partHundredths }) => partHundredths ?? Infinity))
      .filter((at) => at <= own);
    if (done.length > 0) return own - Math.max(...done);
    return sinceOverhaulHundredths === null
      ? undefined
      : sinceOverhaulHundredths + own - tisHundredths;
  };
  const hours = since();
  return {
    lifeLimited: lifeLimitHundredths !== null || of('limit').length > 0,
    life: known.length === 0 ? undefined : hundredths(Math.min(...known)),
    overhauled: overhauled.length > 0 || sinceOverhaulHundredths !== null,
    sinceNew: own === null ? undefined : hundredths(own),
    sinceOverhaul: hours === undefined ? undefined : hundredths(hours),
  };
}

/** What a part had run when a stay began or ended: what it was recorded with, and all its stays until then. */
function ownTime(
  component: PartMove['component'],
  stayId: string,
  side: 'on' | 'off',
): number | null {
  const { recorded, fittings } = historyOf(component);
  const index = component.fittings.findIndex(({ id }) => id === stayId);
  let own: number = recorded;
  for (const [at, { fittedAt, removedAt }] of fittings.entries()) {
    if (at === index && side === 'on') return own;
    if (removedAt === null) return null;
    own += removedAt - fittedAt;
    if (at === index) return own;
  }
  return null;
}
