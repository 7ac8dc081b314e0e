import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { countLot } from './count-lot.ts';
import { scrapPart } from './scrap-part.ts';

const once = 'A UUID that the page makes, so that what is sent twice moves once.';

const ScrapPartInput = builder.inputType('ScrapPartInput', {
  description: 'What is thrown away out of a lot.',
  fields: (t) => ({
    lotId: t.id({ required: true, description: 'The lot.' }),
    quantity: t.field({
      type: 'Decimal',
      required: true,
      description: 'Units: more than 0, with at most 3 decimals.',
    }),
    reason: t.string({ required: true, description: 'Why, 3 to 300 characters.' }),
    clientEventId: t.string({ description: once }),
  }),
});

const CountLotInput = builder.inputType('CountLotInput', {
  description: 'What was counted in a lot.',
  fields: (t) => ({
    lotId: t.id({ required: true, description: 'The lot.' }),
    counted: t.field({
      type: 'Decimal',
      required: true,
      description: 'How many units are there: 0 or more, with at most 3 decimals.',
    }),
    expected: t.field({
      type: 'Decimal',
      required: true,
      description:
        'How many should have been there, as the page said: refused where it moved since.',
    }),
    reason: t.string({
      description: 'Why it differs, at most 300 characters; needed where it does.',
    }),
    clientEventId: t.string({ description: once }),
  }),
});

builder.mutationFields((t) => ({
  scrapPart: t.prismaField({
    type: 'Lot',
    errors: {},
    description: 'Throws away what lies in a lot, with the reason. Never more than is there.',
    args: { input: t.arg({ type: ScrapPartInput, required: true, description: 'What and why.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await scrapPart(context, {
        ...input,
        lotId: keyOf('Lot', input.lotId, 'lotId'),
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  countLot: t.prismaField({
    type: 'Lot',
    errors: {},
    description:
      'Records a count: a movement by the difference, with who and why. A count without difference is recorded too.',
    args: {
      input: t.arg({ type: CountLotInput, required: true, description: 'What was counted.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await countLot(context, {
        ...input,
        lotId: keyOf('Lot', input.lotId, 'lotId'),
        reason: input.reason ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
