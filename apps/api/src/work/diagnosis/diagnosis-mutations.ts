import { OutcomeKind } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { sayOutcome } from './say-outcome.ts';
import { seeFinding } from './see-finding.ts';
import { SightingInput } from './sighting-input.ts';

const SeeFindingInput = builder.inputType('SeeFindingInput', {
  description: 'What somebody sees of a finding, or how a check came out.',
  fields: (t) => ({
    findingId: t.id({ required: true, description: 'Which.' }),
    sighting: t.field({ type: SightingInput, required: true, description: 'What is seen.' }),
    seenAt: t.field({
      type: 'DateTime',
      required: true,
      description: 'When, by the clock of the device.',
    }),
    clientEventId: t.string({
      required: true,
      description:
        'A UUID made by the device: sent again, the first answer comes back and nothing is added.',
    }),
  }),
});
const SayOutcomeInput = builder.inputType('SayOutcomeInput', {
  description: 'What a finding turned out to be.',
  fields: (t) => ({
    findingId: t.id({ required: true, description: 'Which.' }),
    symptom: t.string({ required: true, description: 'What was noticed, by its id.' }),
    kind: t.field({ type: OutcomeKind, required: true, description: 'How it is said.' }),
    cause: t.string({ description: 'For one that is listed: its id.' }),
    words: t.string({
      description: 'In words: 3 to 500 characters, or none for one that is listed.',
    }),
  }),
});

builder.mutationFields((t) => ({
  seeFinding: t.prismaField({
    type: 'Finding',
    errors: {},
    description: 'Adds what somebody sees of a finding. Sent twice, it is added once.',
    args: {
      input: t.arg({ type: SeeFindingInput, required: true, description: 'Which, and what.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await seeFinding(context, {
        ...input,
        findingId: keyOf('Finding', input.findingId, 'findingId'),
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  sayOutcome: t.prismaField({
    type: 'Finding',
    errors: {},
    description:
      'Says what a finding turned out to be. What was wrong is said when it is corrected; that nothing is wrong, at any time.',
    args: {
      input: t.arg({ type: SayOutcomeInput, required: true, description: 'Which, and what.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await sayOutcome(context, {
        ...input,
        findingId: keyOf('Finding', input.findingId, 'findingId'),
        cause: input.cause ?? '',
        words: input.words ?? '',
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
