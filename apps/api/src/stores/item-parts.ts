import { builder } from '../builder.ts';

const PartOnItem = builder.objectRef<{ lotId: string; quantity: string }>('PartOnItem').implement({
  description: 'What an item holds of a lot: issued, less what came back.',
  fields: (t) => ({
    lot: t.prismaField({
      type: 'Lot',
      description: 'Out of which lot.',
      resolve: (query, { lotId }, _, { read }) =>
        read.lot.findUniqueOrThrow({ ...query, where: { id: lotId } }),
    }),
    quantity: t.field({
      type: 'Decimal',
      description: 'How many units.',
      resolve: ({ quantity }) => quantity,
    }),
  }),
});

builder.prismaObjectField('WorkItem', 'parts', (t) =>
  t.field({
    type: [PartOnItem],
    description: 'The parts that it holds, lot by lot, in the order in which they were issued.',
    select: {
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: { lotId: true, quantity: true },
      },
    },
    resolve: ({ movements }) => {
      const held = new Map<string, (typeof movements)[number]['quantity']>();
      // What leaves a lot is negative there.
      for (const { lotId, quantity } of movements)
        held.set(lotId, held.get(lotId)?.minus(quantity) ?? quantity.negated());
      return [...held].flatMap(([lotId, quantity]) =>
        quantity.isZero() ? [] : [{ lotId, quantity: quantity.toFixed() }],
      );
    },
  }),
);
