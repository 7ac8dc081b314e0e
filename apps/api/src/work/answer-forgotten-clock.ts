import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { askRefit } from '../hindsight/index.ts';
import { clientId, text } from './limits.ts';
import { holdClock, rebuildStretches } from './rebuild-stretches.ts';
import { refuseBilledHours } from './refuse-billed-hours.ts';
import { sayWhen } from './say-when.ts';

export interface AnswerForgottenClockInput {
  /** The event that began what is asked about. */
  startId: string;
  /** When its person really stopped; null: the clock is right as it is. */
  stoppedAt: Date | null;
  reason: string;
  clientEventId: string;
}

/**
 * Says how it was with a clock that looks forgotten, by one more event: a stop at the time that was meant, which ends it
 * whatever came after, or a correction that leaves the time as it is. What was recorded stays.
 */
export async function answerForgottenClock(
  context: Context,
  input: AnswerForgottenClockInput,
): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
  const roles = await context.roles();
  const reason = text(input.reason, 'reason', { least: 3, most: 500 });
  const clientEventId = clientId(input.clientEventId);
  const { stoppedAt } = input;
  const now = context.now();

  return context.write(async (tx) => {
    // load
    const start = await tx.clockEvent.findUnique({
      where: { id: input.startId },
      select: {
        id: true,
        kind: true,
        personId: true,
        itemId: true,
        at: true,
        corrections: { orderBy: { id: 'desc' }, take: 1, select: { at: true } },
      },
    });
    if (!start || start.itemId === null) throw notFound('start of a clock');
    const itemId = start.itemId;
    if (start.personId !== personId && !roles.includes('manager'))
      throw new Refused(
        'FORBIDDEN',
        'This is somebody else’s clock: they or the manager can say how it was.',
        'startId',
      );
    await holdClock(tx, start.personId);
    const known = await tx.clockEvent.findFirst({
      where: { clientEventId },
      select: { id: true, answersId: true },
    });
    if (known && known.answersId === start.id) return known.id;
    if (known)
      throw new Refused(
        'CONFLICT',
        'Another clock event has this clientEventId already: needed is a new one.',
        'clientEventId',
      );
    const began = start.corrections[0]?.at ?? start.at;
    // decide
    if (stoppedAt) {
      const stretch = await tx.stretch.findFirst({
        where: { personId: start.personId, itemId, startedAt: began },
        select: { endedAt: true },
      });
      const end = stretch?.endedAt ?? (stretch ? now : began);
      if (stoppedAt <= began || stoppedAt > end) {
        const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
        throw new Refused(
          'CONFLICT',
          `It cannot have stopped ${sayWhen(stoppedAt, timeZone)}: the clock began ${sayWhen(began, timeZone)} and ${stretch?.endedAt ? 'ended' : 'runs until now,'} ${sayWhen(end, timeZone)}. Needed is a time between the two.`,
          'stoppedAt',
        );
      }
      await refuseBilledHours(tx, start.personId, stoppedAt, end);
    }
    // save
    const common = {
      personId: start.personId,
      answersId: start.id,
      reason,
      clientEventId,
      receivedAt: now,
    };
    const made = await tx.clockEvent.create({
      data: stoppedAt
        ? { ...common, kind: 'stop', itemId, at: stoppedAt }
        : { ...common, kind: 'correction', correctsId: start.id, at: began },
      select: { id: true },
    });
    if (stoppedAt) await rebuildStretches(tx, start.personId, stoppedAt);
    await askRefit(tx, now);
    return made.id;
  });
}
