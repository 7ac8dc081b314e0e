import { Temporal } from 'temporal-polyfill';
import type { Context } from '../context.ts';
import {
  type FloorTimes,
  leftToday,
  type PlannedStay,
  type StayFact,
  staysInView,
} from './floor-plan.ts';
import { aircraftSize, standSize } from './place.ts';

/** One hangar's floor, now and over fourteen days, before anything is derived from it. */
export interface FloorView {
  hangarId: string;
  clearanceMm: number;
  stands: readonly { id: string }[];
  stays: readonly PlannedStay[];
  /** What has left since midnight. */
  left: readonly StayFact[];
  times: FloorTimes;
}

const DAYS = 14;
/** How long after its end a plan is still looked at: an aircraft that overstays has one. */
const MEMORY_MS = 90 * 86_400_000;

/** Reads the floor in a fixed number of statements. Null where the shop has drawn no hangar. */
export async function loadFloor(
  context: Context,
  hangarId: string | null,
): Promise<FloorView | null> {
  const { read } = context;
  const { timeZone, clearanceMm } = await read.shop.findFirstOrThrow({
    select: { timeZone: true, clearanceMm: true },
  });
  const hangar = await read.hangar.findFirst({
    ...(hangarId && { where: { id: hangarId } }),
    orderBy: { name: 'asc' },
    select: { id: true, stands: { select: { id: true } } },
  });
  if (!hangar) return null;
  const times = floorTimes(context.now(), timeZone);
  const since = new Date(times.now.getTime() - MEMORY_MS);
  const facts = await read.stay.findMany({
    where: {
      standId: { in: hangar.stands.map(({ id }) => id) },
      startsAt: { lt: times.fortnight },
      OR: [{ endsAt: null }, { endsAt: { gt: since } }],
    },
    select: {
      id: true,
      kind: true,
      startsAt: true,
      endsAt: true,
      aircraftId: true,
      aircraft: { select: aircraftSize },
      stand: { select: standSize },
    },
    orderBy: [{ startsAt: 'asc' }, { id: 'asc' }],
  });
  return {
    hangarId: hangar.id,
    clearanceMm,
    stands: hangar.stands,
    stays: staysInView(facts, times),
    left: leftToday(facts, times),
    times,
  };
}

/** Midnights as the shop has them: a day with a change of clocks is not 24 hours long. */
export function floorTimes(now: Date, timeZone: string): FloorTimes {
  const midnight = Temporal.Instant.fromEpochMilliseconds(now.getTime())
    .toZonedDateTimeISO(timeZone)
    .startOfDay();
  const after = (days: number) => new Date(midnight.add({ days }).startOfDay().epochMilliseconds);
  return { now, today: after(0), tomorrow: after(1), fortnight: after(DAYS), timeZone };
}
