import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { askRefit } from '../hindsight/index.ts';
import { clientId, deviceTime, text } from './limits.ts';
import { holdClock, rebuildStretches } from './rebuild-stretches.ts';
import { refuseBilledHours } from './refuse-billed-hours.ts';
import { needSupervisor } from './supervision.ts';

export interface CorrectClockInput {
  /** The event whose time was wrong, or an earlier correction of it. */
  eventId: string;
  at: Date;
  /** Under whose supervision it was from there on, null: nobody's; left out: as it was. */
  supervisedById?: string | null;
  reason: string;
  clientEventId: string;
}

/** Appends a better time, or another supervision, for a clock event. The event stays as it was recorded; of several corrections the last counts. */
export async function correctClock(context: Context, input: CorrectClockInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const roles = await context.roles();
  const at = deviceTime(input.at, context.now(), 'at');
  const reason = text(input.reason, 'reason', { least: 3, most: 500 });
  const clientEventId = clientId(input.clientEventId);

  return context.write(async (tx) => {
    // load
    const named = await tx.clockEvent.findUnique({
      where: { id: input.eventId },
      select: { id: true, personId: true, correctsId: true },
    });
    if (!named) throw notFound('clock event');
    if (named.personId !== personId && !roles.includes('manager'))
      throw new Refused(
        'FORBIDDEN',
        'This is somebody else’s clock: they or the manager can correct it.',
        'eventId',
      );
    await holdClock(tx, named.personId);
    const known = await tx.clockEvent.findFirst({
      where: { clientEventId },
      select: { id: true, kind: true, personId: true },
    });
    if (known && known.kind === 'correction' && known.personId === named.personId) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'Another clock event has this clientEventId already: needed is a new one.',
        'clientEventId',
      );
    const event = await tx.clockEvent.findUniqueOrThrow({
      where: { id: named.correctsId ?? named.id },
      select: {
        id: true,
        kind: true,
        at: true,
        corrections: { orderBy: { id: 'desc' }, take: 1, select: { at: true } },
      },
    });
    // decide: the stretches change from the earlier of the two times on
    const counted = event.corrections[0]?.at ?? event.at;
    const { supervisedById } = input;
    if (supervisedById !== undefined && event.kind === 'stop')
      throw new Refused(
        'BAD_INPUT',
        'A stop has no supervision: it begins with the work. Needed is the event that began it.',
        'supervision',
      );
    await refuseBilledHours(tx, named.personId, counted, at);
    if (supervisedById) await needSupervisor(tx, supervisedById, named.personId);
    // save
    const made = await tx.clockEvent.create({
      data: {
        personId: named.personId,
        kind: 'correction',
        correctsId: event.id,
        at,
        ...(supervisedById !== undefined && { supervisedById, supervisionChanged: true }),
        receivedAt: context.now(),
        reason,
        clientEventId,
      },
      select: { id: true },
    });
    await rebuildStretches(tx, named.personId, counted < at ? counted : at);
    await askRefit(tx, context.now());
    return made.id;
  });
}
