import { builder } from '../builder.ts';
import { shopToday } from '../today.ts';
import { countsGiven } from './counts.ts';
import { CountsInput } from './counts-schema.ts';
import { dueOnTrip, type TripLine } from './due-on-trip.ts';
import { DueLineType, DueStateType } from './schema.ts';

const TripLineType = builder.objectRef<TripLine>('TripLine').implement({
  description: 'Something that falls due before a planned trip is over.',
  fields: (t) => ({
    line: t.field({
      type: DueLineType,
      description: 'As the aircraft would stand at the return.',
      resolve: ({ line }) => line,
    }),
    now: t.field({
      type: DueStateType,
      nullable: true,
      description: 'As it stands today; null where it cannot be said.',
      resolve: ({ now }) => now,
    }),
    beforeDeparture: t.exposeBoolean('beforeDeparture', {
      description: 'It is past due before the aircraft leaves.',
    }),
  }),
});

builder.prismaObjectField('Aircraft', 'dueOnTrip', (t) =>
  t.field({
    type: [TripLineType],
    description: 'What falls due before it is back from a planned trip. Nothing is kept.',
    args: {
      departOn: t.arg({ type: 'Date', required: true, description: 'When it leaves.' }),
      returnOn: t.arg({ type: 'Date', required: true, description: 'When it is back.' }),
      hundredths: t.arg.int({
        required: true,
        description: 'Hours that will be flown until then, hundredths.',
      }),
      counts: t.arg({
        type: CountsInput,
        description: 'Cycles, landings and starts until then, where something counts them.',
      }),
    },
    select: { id: true },
    resolve: async ({ id }, { counts, ...trip }, context) =>
      dueOnTrip(
        context.read,
        id,
        { ...trip, counts: countsGiven(counts) },
        await shopToday(context),
      ),
  }),
);
