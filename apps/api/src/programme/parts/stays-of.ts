import type { PartDisposition, Prisma } from '@fairlead/database';
import { countsFrom, eachCount, type GivenCounts } from '../counts.ts';
import { historyOf } from '../due-terms.ts';
import { partFacts, readingFacts } from '../fitted-parts.ts';

/** With the meter of the aircraft that it is on. */
export const withReading = {
  ...partFacts,
  fittings: {
    ...partFacts.fittings,
    select: {
      ...partFacts.fittings.select,
      ...{ id: true, position: true, fittedAt: true, removalWords: true },
      aircraft: { select: { registration: true, readings: readingFacts } },
      parent: { select: { title: true, serial: true } },
      fittedBy: { select: { name: true } },
      removedBy: { select: { name: true } },
      handlings: {
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
        select: {
          ...{ side: true, disposition: true, words: true },
          item: { select: { position: true, title: true, order: { select: { number: true } } } },
        },
      },
    },
  },
} satisfies Prisma.ComponentSelect;
export type PartWithStays = Prisma.ComponentGetPayload<{ select: typeof withReading }>;

/** A part's stay on an aircraft with its own time at both ends. */
export interface PartStay {
  id: string;
  registration: string;
  position: string;
  carriedBy: string | null;
  fittedAt: Date;
  fittedBy: string | null;
  aircraftAtFitting: number;
  ownAtFitting: number | null;
  removedAt: Date | null;
  removedBy: string | null;
  aircraftAtRemoval: number | null;
  ownAtRemoval: number | null;
  /** What it counted there; null where it is not known, or while it is there. */
  countedThere: GivenCounts;
  removalWords: string;
  /** In the course of which work, in words; null: none was named. */
  fittedInWork: string | null;
  removedInWork: string | null;
  disposition: PartDisposition | null;
  dispositionWords: string;
}

/** Where a part was, newest first: its time runs on through all of it. */
export function staysOf(part: PartWithStays): PartStay[] {
  let own: number | null = historyOf(part).recorded;
  return part.fittings
    .map((stay): PartStay => {
      const { aircraftTisHundredths: from, removedTisHundredths: until } = stay;
      const ownAtFitting = own;
      const ran = until === null ? null : until - from;
      const ownAtRemoval = own === null || ran === null ? null : own + ran;
      own = ownAtRemoval;
      const said = (side: 'on' | 'off') => stay.handlings.find((each) => each.side === side);
      const workOf = (side: 'on' | 'off') => {
        const item = said(side)?.item;
        return item ? `order ${item.order.number}, item ${item.position}, ${item.title}` : null;
      };
      return {
        id: stay.id,
        ...{ fittedInWork: workOf('on'), removedInWork: workOf('off') },
        disposition: said('off')?.disposition ?? null,
        dispositionWords: said('off')?.words ?? '',
        registration: stay.aircraft.registration,
        position: stay.position,
        carriedBy: stay.parent && `${stay.parent.title}, serial ${stay.parent.serial}`,
        ...{ fittedAt: stay.fittedAt, fittedBy: stay.fittedBy?.name ?? null },
        ...{ aircraftAtFitting: from, ownAtFitting },
        ...{ removedAt: stay.removedAt, removedBy: stay.removedBy?.name ?? null },
        ...{ aircraftAtRemoval: until, ownAtRemoval, removalWords: stay.removalWords },
        countedThere: eachCount((counter) => {
          const [fitted, off] = [
            countsFrom('aircraft', stay)[counter],
            countsFrom('removed', stay)[counter],
          ];
          return fitted === null || off === null ? null : off - fitted;
        }),
      };
    })
    .reverse();
}
