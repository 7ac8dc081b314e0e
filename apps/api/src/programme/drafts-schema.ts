import { builder } from '../builder.ts';

/** Drafts for a visit that nobody sent yet: what falls due can be added to them. */
builder.prismaObjectField('Aircraft', 'draftQuotes', (t) =>
  t.prismaField({
    type: ['Quote'],
    description: 'Drafts for a visit that were not sent yet, newest first.',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) =>
      read.quote.findMany({
        ...query,
        where: {
          ...{ aircraftId: id, findingId: null, orderId: null },
          revisions: { none: { OR: [{ sendings: { some: {} } }, { decisions: { some: {} } }] } },
        },
        orderBy: { number: 'desc' },
        take: 20,
      }),
  }),
);
