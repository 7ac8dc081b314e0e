import { Meter, ReadingSource } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { countsGiven } from '../counts.ts';
import { CountsInput, CountsType } from '../counts-schema.ts';
import { recordReading } from './record-reading.ts';

builder.enumType(ReadingSource, {
  name: 'ReadingSource',
  description: 'Where a time in service comes from.',
  values: {
    read: { description: 'The meter was read.' },
    replaced: { description: 'The meter was replaced.' },
    flight_list: { description: 'Flights were listed; no meter was read.' },
  },
});

builder.prismaObjectFields('MeterReading', (t) => ({
  source: t.expose('source', { type: ReadingSource, description: 'Where it comes from.' }),
  oldReadingHundredths: t.exposeInt('oldReadingHundredths', {
    nullable: true,
    description: 'What the old meter showed when it came out, where it was replaced.',
  }),
  offsetHundredths: t.int({
    description: 'Time in service less reading: what earlier meters ran, hundredths of an hour.',
    select: { tisHundredths: true, readingHundredths: true },
    resolve: ({ tisHundredths, readingHundredths }) => tisHundredths - readingHundredths,
  }),
  reason: t.exposeString('reason', {
    description: 'Why it is right although it goes backwards or jumps.',
  }),
  readBy: t.relation('readBy', { nullable: true, description: 'Who read it.' }),
  photo: t.relation('photo', { nullable: true, description: 'The meter’s photo, as evidence.' }),
  counts: t.field({
    type: CountsType,
    description: 'What was counted until then, in all; null where nobody counted.',
    select: { cycles: true, landings: true, starts: true },
    resolve: (reading) => reading,
  }),
  landings: t.int({
    description: 'Landings of the flights that it comes from.',
    select: { flights: { select: { landings: true } } },
    resolve: ({ flights }) => flights.reduce((sum, { landings }) => sum + landings, 0),
  }),
  starts: t.int({
    description: 'Starts of the engine of the flights that it comes from.',
    select: { flights: { select: { starts: true } } },
    resolve: ({ flights }) => flights.reduce((sum, { starts }) => sum + starts, 0),
  }),
}));

const RecordReadingInput = builder.inputType('RecordReadingInput', {
  description: 'A meter as a person read it.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    meter: t.field({ type: Meter, required: true, description: 'Which meter.' }),
    readingHundredths: t.int({
      required: true,
      description: 'What it shows, hundredths of an hour; of a replaced one, the new meter.',
    }),
    readOn: t.field({ type: 'Date', description: 'When; left out: today.' }),
    oldReadingHundredths: t.int({
      description: 'What the old meter showed when it came out, where it was replaced.',
    }),
    counts: t.field({
      type: CountsInput,
      description: 'What was counted until then, in all: as the aircraft’s log has it.',
    }),
    photoId: t.id({ description: 'A photo of the meter, sent before.' }),
    reason: t.string({
      description: 'Why it is right although it goes backwards or jumps, 3 to 500 characters.',
    }),
  }),
});

builder.mutationFields((t) => ({
  recordReading: t.prismaField({
    type: 'Aircraft',
    errors: {},
    description:
      'Records a reading of a meter, or that it was replaced. One that goes backwards or jumps is taken with a reason only.',
    args: {
      input: t.arg({ type: RecordReadingInput, required: true, description: 'The reading.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await recordReading(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        ...{ meter: input.meter, readingHundredths: input.readingHundredths },
        ...{ readOn: input.readOn ?? null, reason: input.reason ?? '' },
        oldReadingHundredths: input.oldReadingHundredths ?? null,
        counts: countsGiven(input.counts),
        photoId: input.photoId ? keyOf('Photo', input.photoId, 'photoId') : null,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
