import {
  type Counter,
  type ListedFlight,
  type RefusedCell,
  readFlightList,
} from '@fairlead/airworthiness';
import { allow, type Context } from '../../context.ts';
import { Refused } from '../../errors.ts';
import { eachCount } from '../counts.ts';
import { dateOf, dayOf } from '../due-terms.ts';
import { readingsForChange } from './readings-for-change.ts';
import { refusePastMost } from './record-reading.ts';

export interface FlightsTaken {
  flights: number;
  hundredths: number;
  landings: number;
  starts: number;
  cycles: number;
  /** Why nothing was taken: each cell with its line. */
  refused: readonly RefusedCell[];
}

/**
 * Takes a list of flights in whole, or says of each refused cell why and takes nothing. The days' hours are added to the time in
 * service; flights of days that a reading covers are refused, so that none counts twice.
 */
export async function takeFlights(
  context: Context,
  { aircraftId, csv }: { aircraftId: string; csv: string },
): Promise<FlightsTaken> {
  const { personId } = await allow(context, 'front_desk', 'mechanic', 'inspector', 'manager');
  return context.write(async (tx) => {
    // load
    const known = await readingsForChange(tx, aircraftId, context.now());
    const { newest, today, dayOn, endOf } = known;
    // decide
    const { flights, refused } = readFlightList(csv, {
      after: newest && dayOf(dayOn(newest.readAt)),
      today: dayOf(today),
    });
    const sum = (of: (flight: ListedFlight) => number) =>
      flights.reduce((total, flight) => total + of(flight), 0);
    const answer = {
      ...{ refused, flights: flights.length, hundredths: sum(({ time }) => time) },
      ...eachCount((counter) => sum((flight) => flight[counter])),
    };
    if (refused.length > 0) return answer;
    if (!newest)
      throw new Refused(
        'AGAINST_RULE',
        `No meter of ${known.registration} was read yet: enter a reading first, to which the flights are added.`,
      );
    refusePastMost(newest.tisHundredths + answer.hundredths, known.registration);
    // save
    let tis = newest.tisHundredths;
    // A meter that counts in the air is taken to have run along; no figure of another is made up.
    let shown = known.last.get('airborne')?.readingHundredths ?? tis;
    // What was never counted does not begin at nothing.
    const total = eachCount((counter) => known.counted[counter]?.[counter] ?? null);
    const sumOf = (counter: Counter, flown: readonly ListedFlight[]) =>
      flown.reduce((all, flight) => all + flight[counter], total[counter] ?? 0);
    for (const date of new Set(flights.map((flight) => flight.date))) {
      const ofDay = flights.filter((flight) => flight.date === date);
      const flown = ofDay.reduce((total, { time }) => total + time, 0);
      tis += flown;
      shown += flown;
      Object.assign(
        total,
        eachCount((counter) => (total[counter] === null ? null : sumOf(counter, ofDay))),
      );
      const day = dateOf(date);
      const { id: readingId } = await tx.meterReading.create({
        data: {
          ...{ aircraftId, meter: 'airborne', source: 'flight_list', readById: personId },
          ...{ readingHundredths: shown, tisHundredths: tis, ...total },
          readAt: day < today ? endOf(day) : context.now(),
        },
        select: { id: true },
      });
      await tx.flight.createMany({
        data: ofDay.map(({ line, time, landings, starts, cycles }) => ({
          ...{ readingId, flownOn: day, hundredths: time, landings, starts, cycles, line },
        })),
      });
    }
    return answer;
  });
}
