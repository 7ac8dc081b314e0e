import type { IssueException } from '@fairlead/database';
import { builder } from '../builder.ts';

interface Held {
  lotId: string;
  quantity: string;
  answeredFor: string | null;
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
    answeredFor: t.string({
      nullable: true,
      description:
        'What of it was issued without trace, past its shelf life or out of what was reserved for others: by whom, and why. Null: nothing was.',
      resolve: ({ answeredFor }) => answeredFor,
    }),
  }),
});

const words: Record<IssueException, string> = {
  no_trace: 'without a release certificate',
  past_shelf_life: 'past its date',
  reserved_for_others: 'out of what was reserved for others',
  beyond_authority: 'past what the owner had agreed to',
};

/** An issue that somebody answered for, as a sentence. */
const answerOf = ({
  despite,
  reason,
  by,
}: {
  despite: readonly IssueException[];
  reason: string;
  by: { name: string } | null;
}): string[] =>
  despite.length === 0
    ? []
    : [
        `Issued ${despite.map((each) => words[each]).join(' and ')} by ${by?.name ?? 'nobody named'}: “${reason}”.`,
      ];

builder.prismaObjectField('WorkItem', 'parts', (t) =>
  t.field({
    type: [PartOnItem],
    description: 'The parts that it holds, lot by lot, in the order in which they were issued.',
    select: {
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: {
          lotId: true,
          quantity: true,
          despite: true,
          reason: true,
          by: { select: { name: true } },
        },
      },
    },
    resolve: ({ movements }) => {
      const held = new Map<
        string,
        { quantity: (typeof movements)[number]['quantity']; said: string[] }
      >();
      for (const movement of movements) {
        const { lotId, quantity } = movement;
        const before = held.get(lotId);
        held.set(lotId, {
          // What leaves a lot is negative there.
          quantity: before?.quantity.minus(quantity) ?? quantity.negated(),
          said: [...(before?.said ?? []), ...answerOf(movement)],
        });
      }
      return [...held].flatMap(([lotId, { quantity, said }]) =>
        quantity.isZero()
          ? []
          : [{ lotId, quantity: quantity.toFixed(), answeredFor: said.join(' ') || null }],
      );
    },
  }),
);
