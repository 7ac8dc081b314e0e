import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { clock } from './clock.ts';
import { correctClock } from './correct-clock.ts';
import { clientEventIdWords, DeviceInput } from './device-inputs.ts';

const ClockKind = builder.enumType('ClockKind', {
  description: "What a person's clock does.",
  values: {
    start: { description: 'It starts on an item.' },
    switch: { description: 'It goes from one item to another.' },
    stop: { description: 'It stops.' },
  } as const,
});

export const ClockInput = builder.inputType('ClockInput', {
  description: "What a person's clock did.",
  fields: (t) => ({
    kind: t.field({ type: ClockKind, required: true, description: 'What.' }),
    itemId: t.id({ description: 'On which item; a stop may leave it out.' }),
    at: t.field({
      type: 'DateTime',
      required: true,
      description: 'When, by the clock of the device.',
    }),
    clientEventId: t.string({ required: true, description: clientEventIdWords }),
    device: t.field({
      type: DeviceInput,
      description: 'On which device; left out: one whose clock is taken as right.',
    }),
    supervisedById: t.id({
      description: 'Under whose supervision, for whoever does not work by themselves.',
    }),
  }),
});
const SupervisionInput = builder.inputType('SupervisionInput', {
  description: 'Under whose supervision it was.',
  fields: (t) => ({ byId: t.id({ description: 'Whose; left out: nobody’s, by themselves.' }) }),
});
const CorrectClockInput = builder.inputType('CorrectClockInput', {
  description: 'A better time, or another supervision, for a clock event.',
  fields: (t) => ({
    eventId: t.id({ required: true, description: 'The clock event whose time was wrong.' }),
    at: t.field({ type: 'DateTime', required: true, description: 'The right time.' }),
    supervision: t.field({
      type: SupervisionInput,
      description: 'Of what began a stretch: another supervision; left out: as it was.',
    }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
    clientEventId: t.string({ required: true, description: clientEventIdWords }),
  }),
});

builder.mutationFields((t) => ({
  clock: t.prismaField({
    type: 'ClockEvent',
    errors: {},
    description:
      'Starts, switches or stops the clock of the person signed in. Never refused for money or state.',
    args: { input: t.arg({ type: ClockInput, required: true, description: 'What it did.' }) },
    resolve: async (query, _, { input }, context) => {
      const { kind, at } = input;
      const id = await clock(context, {
        kind,
        at,
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        clientEventId: input.clientEventId,
        device: input.device ?? null,
        supervisedById: input.supervisedById
          ? keyOf('Person', input.supervisedById, 'supervisedById')
          : null,
      });
      return context.read.clockEvent.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  correctClock: t.prismaField({
    type: 'ClockEvent',
    errors: {},
    description:
      'Gives a better time, or another supervision, for a clock event. The event itself stays.',
    args: {
      input: t.arg({
        type: CorrectClockInput,
        required: true,
        description: 'Which, and when it really was.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const { supervision, ...given } = input;
      const id = await correctClock(context, {
        ...given,
        eventId: keyOf('ClockEvent', given.eventId, 'eventId'),
        ...(supervision && {
          supervisedById: supervision.byId
            ? keyOf('Person', supervision.byId, 'supervision.byId')
            : null,
        }),
      });
      return context.read.clockEvent.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
