import type { StayKind } from '@fairlead/database';
import { type Conflict, occupancy, overlaps } from '@fairlead/hangar';
import { type AircraftSize, fitsOn, type StandSize, shortName } from './place.ts';

/** A stay as the database has it, with what the floor needs of it. */
export interface StayFact {
  id: string;
  kind: StayKind;
  startsAt: Date;
  endsAt: Date | null;
  aircraftId: string;
  aircraft: AircraftSize;
  stand: StandSize;
}

/** A stay as it is looked at: one that is under way has the end that was planned for it. */
export interface PlannedStay extends StayFact {
  /** When the plan ended that it still overstays; null: it does not. */
  lateSince: Date | null;
}

export interface FloorChange {
  at: Date;
  kind: 'arrival' | 'move' | 'departure';
  stayId: string;
  late: boolean;
}

export interface FloorConflict {
  kind: Conflict['kind'] | 'too_tight';
  sentence: string;
  from: Date;
  to: Date | null;
  stayIds: readonly string[];
}

export interface FloorTimes {
  now: Date;
  /** Midnights of the shop: of today, of tomorrow, and fourteen days on. */
  today: Date;
  tomorrow: Date;
  fortnight: Date;
  timeZone: string;
}

/**
 * Joins what is with what was planned: an aircraft on its stand takes the end of the plan for that stand, and the
 * plan is then no stay of its own. A plan that has passed without its aircraft is dropped.
 */
export function staysInView(
  facts: readonly StayFact[],
  { now, fortnight }: FloorTimes,
): PlannedStay[] {
  const here = facts.filter(
    ({ kind, startsAt, endsAt }) =>
      kind === 'actual' && startsAt <= now && (endsAt === null || endsAt > now),
  );
  const plans = facts.filter(({ kind }) => kind === 'planned');
  const used = new Set<string>();
  const under = here.map((stay) => {
    const own = plans
      .filter(
        (plan) =>
          plan.aircraftId === stay.aircraftId &&
          plan.stand.id === stay.stand.id &&
          plan.startsAt <= now &&
          (plan.endsAt ?? now) > stay.startsAt,
      )
      .sort((one, other) => (other.endsAt?.getTime() ?? 0) - (one.endsAt?.getTime() ?? 0));
    for (const { id } of own) used.add(id);
    const end = stay.endsAt ?? own[0]?.endsAt ?? null;
    const late = end !== null && end <= now;
    return { ...stay, endsAt: late ? null : end, lateSince: late ? end : null };
  });
  const ahead = plans
    .filter(
      ({ id, startsAt, endsAt }) =>
        !used.has(id) && startsAt < fortnight && (endsAt === null || endsAt > now),
    )
    .map((plan) => ({ ...plan, lateSince: null }));
  return [...under, ...ahead].filter(
    ({ startsAt, endsAt }) => endsAt === null || endsAt > startsAt,
  );
}

const asStay = ({ id, aircraft, stand, startsAt, endsAt }: StayFact) => ({
  id,
  registration: aircraft.registration,
  standId: stand.id,
  standName: shortName(stand.name),
  from: startsAt,
  to: endsAt,
});

/** Arrivals, moves and departures from now to the end of the fortnight, and departures that are late; by time. */
export function comingChanges(
  stays: readonly PlannedStay[],
  { now, fortnight }: FloorTimes,
): FloorChange[] {
  const ahead = (at: Date | null): at is Date => at !== null && at > now && at < fortnight;
  return stays
    .flatMap((stay): FloorChange[] => {
      const others = stays.filter(
        ({ id, aircraftId }) => id !== stay.id && aircraftId === stay.aircraftId,
      );
      const comesFrom = others.some(
        ({ startsAt, endsAt }) =>
          startsAt < stay.startsAt && (endsAt === null || endsAt >= stay.startsAt),
      );
      const goesOn = others.some(
        ({ startsAt }) =>
          stay.endsAt !== null && startsAt > stay.startsAt && startsAt <= stay.endsAt,
      );
      return [
        ...(ahead(stay.startsAt)
          ? [
              {
                at: stay.startsAt,
                kind: comesFrom ? ('move' as const) : ('arrival' as const),
                stayId: stay.id,
                late: false,
              },
            ]
          : []),
        ...(stay.kind === 'planned' && stay.startsAt <= now
          ? [{ at: stay.startsAt, kind: 'arrival' as const, stayId: stay.id, late: true }]
          : []),
        ...(ahead(stay.endsAt) && !goesOn
          ? [{ at: stay.endsAt, kind: 'departure' as const, stayId: stay.id, late: false }]
          : []),
        ...(stay.lateSince
          ? [{ at: stay.lateSince, kind: 'departure' as const, stayId: stay.id, late: true }]
          : []),
      ];
    })
    .sort(
      (one, other) => one.at.getTime() - other.at.getTime() || (one.stayId < other.stayId ? -1 : 1),
    );
}

/** What cannot be: two at one place, one at two, and too little room. */
export function floorConflicts(
  stays: readonly PlannedStay[],
  clearanceMm: number,
  { timeZone }: FloorTimes,
): FloorConflict[] {
  const tight = stays.flatMap(({ id, aircraft, stand, startsAt, endsAt }): FloorConflict[] => {
    const fit = fitsOn(aircraft, stand, clearanceMm);
    return fit.fits
      ? []
      : [{ kind: 'too_tight', sentence: fit.sentence, from: startsAt, to: endsAt, stayIds: [id] }];
  });
  return [...overlaps(stays.map(asStay), { timeZone }), ...tight];
}

/** Stays in fact that have ended since midnight: they took hours of today, and are on no drawing any more. */
export const leftToday = (facts: readonly StayFact[], { now, today }: FloorTimes): StayFact[] =>
  facts.filter(
    ({ kind, startsAt, endsAt }) =>
      kind === 'actual' && endsAt !== null && endsAt > today && endsAt <= now && startsAt < endsAt,
  );

/**
 * Shares of the stands' hours that are taken, 0 to 1: of today, and of the fourteen days from today on. What was is
 * counted as it was, so that hours for which an aircraft was planned and did not come are free.
 */
export function floorOccupancy(
  stays: readonly PlannedStay[],
  left: readonly StayFact[],
  stands: readonly { id: string }[],
  { now, today, tomorrow, fortnight }: FloorTimes,
) {
  const late = ({ kind, startsAt }: StayFact) => kind === 'planned' && startsAt < now;
  const ahead = stays.map((stay) => (late(stay) ? { ...stay, startsAt: now } : stay));
  const all = [...left, ...ahead].map(asStay);
  return {
    today: occupancy(all, stands, today, tomorrow).share,
    fortnight: occupancy(all, stands, today, fortnight).share,
  };
}
