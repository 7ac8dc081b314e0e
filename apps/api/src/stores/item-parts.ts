import { builder } from '../builder.ts';

interface Held {
  itemId: string;
  lotId: string;
  quantity: string;
  /** Whether any of it was issued against a rule, by name. */
  answeredFor: boolean;
}

const PartOnItem = builder.objectRef<Held>('PartOnItem').implement({
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
    despite: t.prismaField({
      type: ['StockMovement'],
      description:
        'Issues of it that were made without trace, past its shelf life or out of what was reserved for others: with who and why.',
      resolve: (query, { itemId, lotId, answeredFor }, _, { read }) =>
        answeredFor
          ? read.stockMovement.findMany({
              ...query,
              where: { itemId, lotId, kind: 'issue', despite: { isEmpty: false } },
              orderBy: [{ at: 'asc' }, { id: 'asc' }],
            })
          : [],
    }),
  }),
});

builder.prismaObjectField('WorkItem', 'parts', (t) =>
  t.field({
    type: [PartOnItem],
    description: 'The parts that it holds, lot by lot, in the order in which they were issued.',
    select: {
      id: true,
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: { lotId: true, quantity: true, despite: true },
      },
    },
    resolve: ({ id: itemId, movements }) => {
      const held = new Map<string, Pick<(typeof movements)[number], 'quantity' | 'despite'>>();
      for (const { lotId, quantity, despite } of movements) {
        const before = held.get(lotId);
        held.set(lotId, {
          // What leaves a lot is negative there.
          quantity: before?.quantity.minus(quantity) ?? quantity.negated(),
          despite: [...(before?.despite ?? []), ...despite],
        });
      }
      return [...held].flatMap(([lotId, { quantity, despite }]) =>
        quantity.isZero()
          ? []
          : [{ itemId, lotId, quantity: quantity.toFixed(), answeredFor: despite.length > 0 }],
      );
    },
  }),
);
