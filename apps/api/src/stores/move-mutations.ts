import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { issuePart } from './issue-part.ts';
import { IssueExceptionType } from './lot-types.ts';
import { returnPart } from './return-part.ts';

const lotId = { required: true, description: 'The lot.' } as const;
const itemId = { required: true, description: 'The work item.' } as const;
const quantity = {
  type: 'Decimal',
  required: true,
  description: 'Units: more than 0, with at most 3 decimals.',
} as const;
const clientEventId = {
  description: 'A UUID that the page makes, so that what is sent twice moves once.',
};

const IssuePartInput = builder.inputType('IssuePartInput', {
  description: 'Parts out of a lot, for an item.',
  fields: (t) => ({
    lotId: t.id(lotId),
    itemId: t.id(itemId),
    quantity: t.field(quantity),
    despite: t.field({
      type: [IssueExceptionType],
      description: 'What whoever issues knows of and issues against, for their reason.',
    }),
    reason: t.string({
      description:
        'Why, at most 300 characters. Needed with `despite`, and kept under the name of whoever issues.',
    }),
    clientEventId: t.string(clientEventId),
  }),
});

const ReturnPartInput = builder.inputType('ReturnPartInput', {
  description: 'Parts back into their lot, from an item.',
  fields: (t) => ({
    lotId: t.id(lotId),
    itemId: t.id(itemId),
    quantity: t.field(quantity),
    clientEventId: t.string(clientEventId),
  }),
});

const keysOf = (input: { lotId: string; itemId: string }) => ({
  lotId: keyOf('Lot', input.lotId, 'lotId'),
  itemId: keyOf('WorkItem', input.itemId, 'itemId'),
});

builder.mutationFields((t) => ({
  issuePart: t.prismaField({
    type: 'Lot',
    errors: {},
    description:
      'Takes parts out of a lot for an item. Never more than is there. Without trace, past its shelf life or reserved for others: only for a reason, by name.',
    args: {
      input: t.arg({ type: IssuePartInput, required: true, description: 'What goes where.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await issuePart(context, {
        ...keysOf(input),
        quantity: input.quantity,
        despite: input.despite ?? [],
        reason: input.reason ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  returnPart: t.prismaField({
    type: 'Lot',
    errors: {},
    description: 'Puts back into its lot what an item did not need.',
    args: {
      input: t.arg({ type: ReturnPartInput, required: true, description: 'What comes back.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await returnPart(context, {
        ...keysOf(input),
        quantity: input.quantity,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
