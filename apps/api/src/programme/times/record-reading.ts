import { counters, hundredths, questionCount, questionReading } from '@fairlead/airworthiness';
import type { Meter } from '@fairlead/database';
import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { type GivenCounts, refuseCounts } from '../counts.ts';
import { dayOf } from '../due-terms.ts';
import { MOST_HUNDREDTHS } from '../most-hours.ts';
import { type KnownReadings, readingsForChange } from './readings-for-change.ts';

export interface RecordReadingInput {
  aircraftId: string;
  meter: Meter;
  readingHundredths: number;
  /** Null: today. */
  readOn: Date | null;
  /** What the old meter showed when it came out, where the meter was replaced; the reading is the new one's. */
  oldReadingHundredths: number | null;
  /** What was counted until then, in all; null: nobody counted. */
  counts: GivenCounts;
  photoId: string | null;
  /** Why a reading is right that would be questioned; empty: nobody said so yet. */
  reason: string;
}

/**
 * A person reads a meter, or says that it was replaced. A reading that goes backwards or jumps is questioned, and taken only
 * with a reason, under their name. A replaced meter keeps the time in service running on (14 CFR 1.1).
 */
export async function recordReading(context: Context, input: RecordReadingInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  const reason = givenText(input.reason, 'reason', { most: 500 });
  for (const field of ['readingHundredths', 'oldReadingHundredths'] as const) {
    const value = input[field];
    if (value !== null && (value < 0 || value > MOST_HUNDREDTHS))
      throw new Refused(
        'BAD_INPUT',
        `${field} is ${value}: needed is 0 to ${MOST_HUNDREDTHS}.`,
        field,
      );
  }
  refuseCounts(input.counts);
  const { aircraftId, meter, readingHundredths, oldReadingHundredths, photoId } = input;
  return context.write(async (tx) => {
    // load
    const known = await readingsForChange(tx, aircraftId, context.now());
    if (photoId && !(await tx.photo.findUnique({ where: { id: photoId }, select: { id: true } })))
      throw notFound('photo');
    // decide
    const readAt = momentOf(known, input.readOn, context.now());
    const last = known.last.get(meter) ?? null;
    if (oldReadingHundredths !== null && !last)
      throw new Refused(
        'AGAINST_RULE',
        `The ${meter.replace('_', '-')} meter of ${known.registration} was never read here: there is nothing that the old one ran on from. Enter the reading alone.`,
        'oldReadingHundredths',
      );
    const ranTo = oldReadingHundredths ?? readingHundredths;
    const tis = last
      ? last.tisHundredths + ranTo - last.readingHundredths
      : (known.newest?.tisHundredths ?? readingHundredths);
    const odd = last && oddly(known, last, ranTo, readAt);
    const oddCount = oddlyCounted(known, input.counts, readAt);
    if (odd && reason.length < 3)
      throw new Refused(
        'AGAINST_RULE',
        `The reading ${odd}. If it is right, say why; if the meter was replaced, say what the old one showed.`,
        'reason',
      );
    if (oddCount && reason.length < 3)
      throw new Refused(
        'AGAINST_RULE',
        `The count ${oddCount}. If it is right, say why.`,
        'reason',
      );
    if (tis < 0)
      throw new Refused(
        'BAD_INPUT',
        `That would make the time in service less than nothing: it was ${(last?.tisHundredths ?? 0) / 100} h at a reading of ${(last?.readingHundredths ?? 0) / 100} h.`,
        'readingHundredths',
      );
    refusePastMost(tis, known.registration);
    // save
    await tx.meterReading.create({
      data: {
        ...{ aircraftId, meter, readingHundredths, tisHundredths: tis, readAt },
        ...{ readById: personId, photoId, oldReadingHundredths },
        source: oldReadingHundredths === null ? 'read' : 'replaced',
        ...input.counts,
        reason: odd || oddCount ? reason : '',
      },
      select: { id: true },
    });
    return aircraftId;
  });
}

type LastReading = NonNullable<ReturnType<KnownReadings['last']['get']>>;

function oddly(
  { use, dayOn }: KnownReadings,
  last: LastReading,
  ranTo: number,
  readAt: Date,
): string | null {
  return questionReading(
    { date: dayOf(dayOn(last.readAt)), reading: hundredths(last.readingHundredths) },
    { date: dayOf(dayOn(readAt)), reading: hundredths(ranTo) },
    use,
  );
}

/** The first of the counts that is odd. */
function oddlyCounted(known: KnownReadings, counts: GivenCounts, readAt: Date): string | null {
  const date = dayOf(known.dayOn(readAt));
  for (const counter of counters) {
    const [before, count] = [known.counted[counter], counts[counter]];
    const then = before?.[counter] ?? null;
    if (before === null || then === null || count === null) continue;
    const last = { date: dayOf(known.dayOn(before.readAt)), count: then };
    const odd = questionCount(counter, last, { date, count }, known.countUse[counter]);
    if (odd) return odd;
  }
  return null;
}

/** Today is now; an earlier day its end, so that readings stay in the order of their days. */
function momentOf(
  { newest, today, dayOn, endOf }: KnownReadings,
  on: Date | null,
  now: Date,
): Date {
  if (on && on > today)
    throw new Refused(
      'BAD_INPUT',
      `Read on ${sayDay(on)} was refused: today is ${sayDay(today)}.`,
      'readOn',
    );
  const day = on ?? today;
  const before = newest && dayOn(newest.readAt);
  if (newest && before && day < before)
    throw new Refused(
      'BAD_INPUT',
      `Read on ${sayDay(day)} was refused: a meter was read on ${sayDay(before)} already, and readings are entered in the order of their days.`,
      'readOn',
    );
  const at = day < today ? endOf(day) : now;
  // Two readings of one day stay in the order in which they were entered.
  return newest && at <= newest.readAt ? new Date(newest.readAt.getTime() + 1) : at;
}

/** However often a meter is said to be replaced. */
export function refusePastMost(tis: number, registration: string): void {
  if (tis > MOST_HUNDREDTHS)
    throw new Refused(
      'BAD_INPUT',
      `That would make the time in service of ${registration} ${tis / 100} h: needed is at most ${MOST_HUNDREDTHS / 100} h.`,
      'readingHundredths',
    );
}
