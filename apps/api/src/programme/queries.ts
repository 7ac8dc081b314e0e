import {
  type CountedLife,
  type Counter,
  counters,
  hundredths,
  partCountNow,
  type TimeInService,
} from '@fairlead/airworthiness';
import type { Prisma } from '@fairlead/database';
import { countHistoryOf, countsFrom } from './counts.ts';
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
          ...{ limitCycles: true, limitLandings: true, limitStarts: true },
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
  /** Limits by what is counted, the tightest of each, with the part's own count then. */
  counted: CountedLife[];
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
    counted: counters.flatMap((counter) => {
      const most = of('limit').flatMap((item) => countsFrom('limit', item)[counter] ?? []);
      if (most.length === 0) return [];
      const own = ownCount(component, counter, { id, side });
      return [{ counter, life: Math.min(...most), sinceNew: own ?? undefined }];
    }),
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

/** What a part had counted when a stay began or ended; null where any of it is unknown. */
function ownCount(
  component: PartMove['component'],
  counter: Counter,
  { id, side }: { id: string; side: 'on' | 'off' },
): number | null {
  const index = component.fittings.findIndex((stay) => stay.id === id);
  const { recorded, stays } = countHistoryOf(component, counter);
  const until = stays.slice(0, side === 'on' ? index : index + 1);
  // A stay that has not ended has no count at its end.
  return until.every(({ removed }) => removed)
    ? partCountNow({ recorded, stays: until }, null)
    : null;
}
