import type { Meter } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { booksOfKind } from './books-of-kind.ts';

export interface AddAircraftInput {
  modelId: string;
  registration: string;
  serial: string;
  /** Year of manufacture. */
  year: number | null;
  meter: Meter;
  /** What the meter shows, hundredths of an hour. */
  readingHundredths: number;
  /** Its time in service, hundredths of an hour (14 CFR 1.1): another meter may have run before. */
  tisHundredths: number;
}

const MOST_HUNDREDTHS = 10_000_000;
const times = { readingHundredths: 'What the meter shows', tisHundredths: 'The time in service' };

/**
 * Takes an aircraft into the shop's books: with the record books of its kind and its time in service as of now, which
 * everything that falls due is counted from.
 */
export async function addAircraft(context: Context, input: AddAircraftInput): Promise<string> {
  const { shopId, personId } = await allow(context, 'front_desk', 'manager');
  const registration = givenRegistration(input.registration);
  const serial = givenText(input.serial, 'serial', { least: 1, most: 60 });
  const thisYear = (await shopToday(context)).getUTCFullYear();
  if (input.year !== null && (input.year < 1903 || input.year > thisYear + 1))
    throw new Refused(
      'BAD_INPUT',
      `year is ${input.year}: needed is 1903 to ${thisYear + 1}, or nothing where it is not known.`,
      'year',
    );
  for (const [field, words] of Object.entries(times) as [keyof typeof times, string][])
    if (input[field] < 0 || input[field] > MOST_HUNDREDTHS)
      throw new Refused(
        'BAD_INPUT',
        `${words} was given as ${input[field] / 100} h: needed is 0 to ${MOST_HUNDREDTHS / 100} h.`,
        field,
      );
  return context.write(async (tx) => {
    await holdFor(tx, 'registration', registration);
    const model = await tx.aircraftModel.findUnique({
      where: { id: input.modelId },
      select: { kind: true, maker: true, name: true },
    });
    if (!model) throw notFound('model');
    const twin = await tx.aircraft.findFirst({
      where: { OR: [{ registration }, { modelId: input.modelId, serial }] },
      select: { registration: true },
    });
    if (twin)
      throw new Refused(
        'CONFLICT',
        twin.registration === registration
          ? `${registration} is among the shop’s aircraft already.`
          : `${model.maker} ${model.name}, serial ${serial}, is among the shop’s aircraft already, as ${twin.registration}.`,
        twin.registration === registration ? 'registration' : 'serial',
      );
    const { id } = await tx.aircraft.create({
      data: { shopId, modelId: input.modelId, registration, serial, year: input.year },
      select: { id: true },
    });
    await tx.recordBook.createMany({
      data: booksOfKind[model.kind].map((book) => ({ ...book, aircraftId: id })),
    });
    await tx.meterReading.create({
      data: {
        aircraftId: id,
        meter: input.meter,
        readingHundredths: input.readingHundredths,
        tisHundredths: input.tisHundredths,
        readAt: context.now(),
        readById: personId,
      },
      select: { id: true },
    });
    return id;
  });
}

/** Registrations are letters, figures and at most one hyphen (ICAO Annex 7 marks; the rest common practice, no source). */
function givenRegistration(given: string): string {
  const registration = given.trim().toUpperCase();
  if (!/^[A-Z0-9]{1,6}(-[A-Z0-9]{1,6})?$/.test(registration) || registration.length < 3)
    throw new Refused(
      'BAD_INPUT',
      `registration is "${given.slice(0, 30)}": needed are letters and figures with at most one hyphen, 3 to 13 in all, as they stand on the aircraft.`,
      'registration',
    );
  return registration;
}
