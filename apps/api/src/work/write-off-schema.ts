import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { writeOff } from './write-off.ts';

builder.prismaNode('WriteOff', {
  id: { field: 'id' },
  description: "Work past the owner's yes that the shop carries. Never changed.",
  fields: (t) => ({
    amount: t.expose('amountMinor', { type: 'Minor', description: 'How much, net.' }),
    reason: t.exposeString('reason', { description: 'Why.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who said so.' }),
  }),
});

const WriteOffInput = builder.inputType('WriteOffInput', {
  description: 'What the shop carries itself.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'Of which order.' }),
    amount: t.field({
      type: 'Minor',
      required: true,
      description: 'How much, net: more than 0, at most what is beyond authority.',
    }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
  }),
});

builder.mutationField('writeOff', (t) =>
  t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description: "Says that work past the owner's yes is the shop's own. For the manager.",
    args: { input: t.arg({ type: WriteOffInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await writeOff(context, {
        ...input,
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
