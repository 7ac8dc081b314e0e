import type { Tx } from '@fairlead/database';
import { weeksOf } from '../people/queries.ts';
import { ASKED_AFTER_MS, whyForgotten } from './forgotten-clock.ts';
import { type LongStretch, longStretches } from './long-stretches.ts';
import { shiftEnd } from './shift-end.ts';
import { eventAtEnd } from './stretch-ends.ts';

/** A time at which somebody may have stopped. */
export interface StopSuggestion {
  at: Date;
  kind: 'end_of_hours' | 'last_sign';
  /** Of a last sign: what it was. */
  what: string;
}

/** A clock that looks forgotten, and of which nobody has said yet how it was. */
export interface ForgottenClock extends LongStretch {
  /** The event that began it: what an answer names. */
  startId: string;
  suggestions: StopSuggestion[];
}

/** The clocks that look forgotten and wait for an answer: of one person, or of everybody who works here. */
export async function forgottenClocks(
  read: Tx,
  personId: string | null,
  now: Date,
): Promise<ForgottenClock[]> {
  const stretches = await longStretches(read, personId, now);
  const asked: ForgottenClock[] = [];
  for (const stretch of stretches) {
    const startId = await eventAtEnd(read, stretch, stretch.startedAt, 'start');
    if (startId === null || (await isAnswered(read, stretch, startId, now))) continue;
    asked.push({ ...stretch, startId, suggestions: await suggestionsFor(read, stretch, now) });
  }
  return asked;
}

/** Whether its person said how it was, and it has not run past their hours again since. */
async function isAnswered(
  read: Tx,
  stretch: LongStretch,
  startId: string,
  now: Date,
): Promise<boolean> {
  const answer = await read.clockEvent.findFirst({
    where: { answersId: startId },
    orderBy: { receivedAt: 'desc' },
    select: { receivedAt: true },
  });
  if (!answer) return false;
  const since = answer.receivedAt;
  if (stretch.endedAt && stretch.endedAt <= since) return true;
  const presence = await weeksOf(read, [stretch.personId]);
  const end = shiftEnd(since, presence(stretch.personId));
  return whyForgotten({ ...stretch, since }, { end, p99Hours: null }, now) === null;
}

async function suggestionsFor(
  read: Tx,
  { personId, startedAt, endedAt, end }: LongStretch,
  now: Date,
): Promise<StopSuggestion[]> {
  const until = endedAt ?? now;
  // What somebody did the next morning is no sign of the evening before.
  const evening = end ? new Date(Math.min(+until, +end + ASKED_AFTER_MS)) : until;
  const sign = await lastSign(read, personId, startedAt, evening);
  return [
    ...(end && end > startedAt && end < until
      ? [{ at: end, kind: 'end_of_hours' as const, what: '' }]
      : []),
    ...(sign ? [{ ...sign, kind: 'last_sign' as const }] : []),
  ].sort((one, other) => +one.at - +other.at);
}

/** The last thing that somebody is known to have done between two moments. */
async function lastSign(
  read: Pick<Tx, '$queryRaw'>,
  personId: string,
  from: Date,
  to: Date,
): Promise<{ at: Date; what: string } | null> {
  const [sign] = await read.$queryRaw<{ at: Date; what: string }[]>`
    SELECT at, what FROM (
      SELECT found_at AS at, 'finding “' || title || '”' AS what FROM finding WHERE shop_id = current_shop() AND found_by_id = ${personId}::uuid
      UNION ALL SELECT e.at, '“' || i.title || '”' FROM item_event e JOIN work_item i ON i.shop_id = e.shop_id AND i.id = e.item_id
        WHERE e.shop_id = current_shop() AND e.by_id = ${personId}::uuid
      UNION ALL SELECT c.at, 'cautions of “' || i.title || '”' FROM caution_reading c JOIN work_item i ON i.shop_id = c.shop_id AND i.id = c.item_id
        WHERE c.shop_id = current_shop() AND c.person_id = ${personId}::uuid
      UNION ALL SELECT added_at, 'a photo' FROM photo WHERE shop_id = current_shop() AND added_by_id = ${personId}::uuid
      UNION ALL SELECT m.at, p.title || ' from the stores' FROM stock_movement m JOIN lot l ON l.shop_id = m.shop_id AND l.id = m.lot_id
        JOIN part p ON p.shop_id = l.shop_id AND p.id = l.part_id WHERE m.shop_id = current_shop() AND m.by_id = ${personId}::uuid
    ) AS signs WHERE at > ${from} AND at < ${to} ORDER BY at DESC LIMIT 1`;
  return sign ?? null;
}
