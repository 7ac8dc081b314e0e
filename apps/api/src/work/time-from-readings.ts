import { hundredths, timeInService } from '@fairlead/airworthiness';
import type { Meter } from '@fairlead/database';
import { Refused } from '../errors.ts';

export interface Reading {
  meter: Meter;
  readingHundredths: number;
}

export interface LastReading extends Reading {
  tisHundredths: number;
}

const MOST = 100_000_000;
const words: Record<Meter, string> = {
  tachometer: 'tachometer',
  engine_on: 'engine-on meter',
  airborne: 'airborne meter',
};

/**
 * Time in service at new readings, from the last one of each meter. A meter read for the first time takes its
 * start from what is known of the aircraft: its time by another meter, or else the reading itself is the total.
 *
 * @param last the newest reading of each meter; @param newest the newest of all
 * @throws Refused when a meter is named twice, a reading goes backwards or is no sensible figure
 */
export function timeFromReadings(
  given: readonly Reading[],
  last: readonly LastReading[],
  newest: LastReading | null,
): LastReading[] {
  const [twice] = given.filter(
    ({ meter }, index) => given.findIndex((other) => other.meter === meter) !== index,
  );
  if (twice)
    throw new Refused(
      'BAD_INPUT',
      `The ${words[twice.meter]} is read twice: needed is one reading of each meter.`,
      'readings',
    );
  const impossible = given.find(({ readingHundredths: value }) => value < 0 || value > MOST);
  if (impossible)
    throw new Refused(
      'BAD_INPUT',
      `The ${words[impossible.meter]} reads ${impossible.readingHundredths} hundredths of an hour: needed is 0 to ${MOST}.`,
      'readings',
    );

  const before = new Map(last.map((reading) => [reading.meter, reading]));
  const known = given
    .filter(({ meter }) => before.has(meter))
    .map((reading) => continued(reading, before.get(reading.meter)));
  const sofar = known[0]?.tisHundredths ?? newest?.tisHundredths;
  const first = given
    .filter(({ meter }) => !before.has(meter))
    .map((reading) => ({ ...reading, tisHundredths: sofar ?? reading.readingHundredths }));
  return [...known, ...first];
}

function continued(reading: Reading, last: LastReading | undefined): LastReading {
  const total = last ? last.tisHundredths + reading.readingHundredths - last.readingHundredths : 0;
  if (total > MOST)
    throw new Refused(
      'BAD_INPUT',
      `The ${words[reading.meter]} reads ${reading.readingHundredths / 100} h, which would make the time in service ${total / 100} h: needed is at most ${MOST / 100} h.`,
      'readings',
    );
  const answer = timeInService({
    readings: [{ kind: 'read', reading: hundredths(reading.readingHundredths) }],
    ...(last && {
      start: { total: hundredths(last.tisHundredths), reading: hundredths(last.readingHundredths) },
    }),
  });
  if (!answer.known)
    throw new Refused(
      'AGAINST_RULE',
      `The ${words[reading.meter]}: ${answer.sentence}. Enter it on the sheet of the aircraft’s records, where a replaced meter or a reason goes with it, and leave this meter out here.`,
      'readings',
    );
  return { ...reading, tisHundredths: answer.timeInService };
}
