import { createHash } from 'node:crypto';
import type { Tx } from '@fairlead/database';
import { timeWriter } from '@fairlead/hangar';
import { Refused } from '../errors.ts';
import { shortName } from './place.ts';

/** The last stays of an aircraft, by when they were made: any act on the floor adds, changes or drops one of them. */
export const lastStays = {
  orderBy: { id: 'desc' },
  take: 20,
  select: { id: true, standId: true, startsAt: true, endsAt: true },
} as const;

interface VersionedStay {
  id: string;
  standId: string;
  startsAt: Date;
  endsAt: Date | null;
}

/** Where an aircraft stands and is planned, as one short text that changes with any of it. */
export function floorVersion(stays: readonly VersionedStay[]): string {
  const all = stays.map(({ id, standId, startsAt, endsAt }) =>
    [id, standId, startsAt.getTime(), endsAt?.getTime() ?? ''].join(' '),
  );
  return createHash('sha256').update(all.join('\n')).digest('base64url').slice(0, 22);
}

/** Somebody changed the aircraft's place after it was looked at: who, when, and where it stands now. */
export class MovedMeanwhile extends Refused {
  readonly by: string | null;
  readonly at: Date | null;
  readonly stayId: string | null;
  constructor(
    message: string,
    { by, at, stayId }: { by: string | null; at: Date | null; stayId: string | null },
  ) {
    super('CONFLICT', message, 'seenVersion');
    this.by = by;
    this.at = at;
    this.stayId = stayId;
  }
}

/**
 * Refuses a change to an aircraft's place that was decided on an older drawing. To be called while the aircraft is
 * held (`aircraftToMove`), so that of two people who drag it at once the second one hears of the first.
 */
export async function refuseUnseen(
  tx: Tx,
  aircraft: { id: string; registration: string },
  seenVersion: string | null,
): Promise<void> {
  if (seenVersion === null) return;
  const stays = await tx.stay.findMany({ where: { aircraftId: aircraft.id }, ...lastStays });
  if (floorVersion(stays) === seenVersion) return;
  const [last, here, { timeZone }] = [
    await lastChange(tx, aircraft.id, stays),
    await tx.stay.findFirst({
      where: { aircraftId: aircraft.id, kind: 'actual', endsAt: null },
      select: { id: true, stand: { select: { name: true } } },
    }),
    await tx.shop.findFirstOrThrow({ select: { timeZone: true } }),
  ];
  const who = last?.by ? ` by ${last.by}` : '';
  const when = last ? ` on ${timeWriter(timeZone)(last.at)}` : '';
  const where = here ? `stands on stand ${shortName(here.stand.name)} now` : 'is on no stand now';
  throw new MovedMeanwhile(
    `${aircraft.registration} was moved or planned anew${who}${when}: it ${where}. Your change was not saved.`,
    { by: last?.by ?? null, at: last?.at ?? null, stayId: here?.id ?? null },
  );
}

/** Who last touched the stays of an aircraft. A plan that was dropped is found by what it was. */
async function lastChange(tx: Tx, aircraftId: string, stays: readonly VersionedStay[]) {
  const row = await tx.audit.findFirst({
    where: {
      tableName: 'stay',
      OR: [
        { rowId: { in: stays.map(({ id }) => id) } },
        { action: 'delete', before: { path: ['aircraft_id'], equals: aircraftId } },
      ],
    },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { at: true, personId: true },
  });
  if (!row) return null;
  const person = row.personId
    ? await tx.person.findUnique({ where: { id: row.personId }, select: { name: true } })
    : null;
  return { at: row.at, by: person?.name ?? null };
}
