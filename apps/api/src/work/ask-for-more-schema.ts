import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { askForMore } from './ask-for-more.ts';

const AskForMoreInput = builder.inputType('AskForMoreInput', {
  description: 'How much more an owner is asked for.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    amount: t.field({
      type: 'Minor',
      description: 'Net, more than 0. Left out: what is past authority now, with what is on order.',
    }),
  }),
});

builder.mutationField('askForMore', (t) =>
  t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      'Drafts the request for more than was agreed for the work that is there. It is sent like any quote; a yes to it raises the ceiling, and nothing else.',
    args: { input: t.arg({ type: AskForMoreInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await askForMore(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        amount: input.amount ?? null,
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);

builder.prismaObjectField('Quote', 'more', (t) =>
  t.exposeBoolean('more', {
    description:
      'Whether it asks for more on what its order has agreed already, and offers no work of its own.',
  }),
);
