import { formatHours, hundredths, partCountAt, partTimeAt } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { Refused } from '../../errors.ts';
import { sayDay } from '../../given.ts';
import {
  type CountsUnder,
  countedLast,
  countFacts,
  countHistoryOf,
  countsFrom,
  countsUnder,
  eachCount,
  type GivenCounts,
} from '../counts.ts';
import { dateOf, dayOf, historyOf, type PartOfDue } from '../due-terms.ts';
import type { DirectiveRow } from './directives-of.ts';

/** By when something is to be done the first time: by the aircraft's hours, or of a part by its own. */
export interface FirstLimits {
  limitHundredths: number | null;
  limitDate: Date | null;
}

/**
 * "Within so many hours after it takes effect" as a time in service: from the last reading on or before that day, so that
 * hours flown between it and the day count too, never too late.
 *
 * @throws Refused where no reading is that old and nobody said by when
 */
export async function firstLimits(
  tx: Tx,
  directive: DirectiveRow,
  { id: aircraftId, registration }: { id: string; registration: string },
  part: PartOfDue | null,
  given: FirstLimits,
): Promise<FirstLimits> {
  const { withinHundredths, withinDays, effectiveOn } = directive;
  const pick = directive.whicheverLast ? Math.max : Math.min;
  const both = (one: number | null, other: number | null) =>
    one === null || other === null ? (one ?? other) : pick(one, other);
  const day = both(
    directive.limitDate && dayOf(directive.limitDate),
    withinDays === null ? null : dayOf(effectiveOn) + withinDays,
  );
  const limitDate = given.limitDate ?? (day === null ? null : dateOf(day));
  if (given.limitHundredths !== null) return { limitHundredths: given.limitHundredths, limitDate };
  if (withinHundredths === null) return { limitHundredths: directive.limitHundredths, limitDate };
  const [reading] = await tx.meterReading.findMany({
    where: { aircraftId, readAt: { lt: new Date(effectiveOn.getTime() + 86_400_000) } },
    orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { tisHundredths: true },
  });
  const then = reading ? hundredths(reading.tisHundredths) : null;
  const from = then === null || !part ? then : partTimeAt(historyOf(part), aircraftId, then);
  if (from === null)
    throw new Refused(
      'BAD_INPUT',
      `${directive.number} is to be done within ${formatHours(hundredths(withinHundredths))} h after ${sayDay(effectiveOn)}, and what ${part ? part.title : registration} had then is not known: give the time in service by which it is due.`,
      'limitHundredths',
    );
  return { limitHundredths: both(directive.limitHundredths, from + withinHundredths), limitDate };
}

/** With what is counted: by the count of the last reading on or before the day that it takes effect. */
export async function limitsOf(
  tx: Tx,
  directive: DirectiveRow,
  aircraft: { id: string; registration: string },
  part: PartOfDue | null,
  given: FirstLimits & { limitCounts: GivenCounts },
): Promise<FirstLimits & CountsUnder<'limit'>> {
  const limits = await firstLimits(tx, directive, aircraft, part, given);
  const within = countsFrom('within', directive);
  const fixed = countsFrom('limit', directive);
  const { limitCounts } = given;
  const pick = directive.whicheverLast ? Math.max : Math.min;
  const readings = Object.values(within).every((count) => count === null)
    ? []
    : await tx.meterReading.findMany({
        where: {
          aircraftId: aircraft.id,
          readAt: { lt: dateOf(dayOf(directive.effectiveOn) + 1) },
        },
        orderBy: [{ readAt: 'desc' }, { id: 'desc' }],
        take: 200,
        select: { tisHundredths: true, ...countFacts },
      });
  const { counts } = countedLast(readings);
  const first = eachCount((counter) => {
    const [interval, limit, then] = [within[counter], fixed[counter], counts[counter]];
    if (limitCounts[counter] !== null || interval === null) return limitCounts[counter] ?? limit;
    const from =
      then === null || !part ? then : partCountAt(countHistoryOf(part, counter), aircraft.id, then);
    if (from === null)
      throw new Refused(
        'BAD_INPUT',
        `${directive.number} is to be done within ${interval} ${counter} after ${sayDay(directive.effectiveOn)}, and what ${part ? part.title : aircraft.registration} had then is not known: give the count by which it is due.`,
        counter,
      );
    return limit === null ? from + interval : pick(limit, from + interval);
  });
  return { ...limits, ...countsUnder('limit', first) };
}
