import type { MovementKind, Prisma } from '@fairlead/database';
import { builder } from '../builder.ts';
import { literally } from '../literally.ts';

interface Use {
  lotId: string;
  itemId: string;
  issued: Prisma.Decimal;
  returned: Prisma.Decimal;
  firstAt: Date;
  lastAt: Date;
  /** Whether any of it was issued against a rule, by name. */
  answeredFor: boolean;
}

/**
 * Where a lot went, item by item, in the order in which it was first issued: what was issued, what came back, and so what
 * is still there as far as the stores know.
 *
 * @param movements issues and returns of one lot, oldest first
 */
function usesOf(
  lotId: string,
  movements: readonly {
    kind: MovementKind;
    itemId: string | null;
    quantity: Prisma.Decimal;
    at: Date;
    despite: readonly unknown[];
  }[],
): Use[] {
  const uses = new Map<string, Use>();
  for (const { kind, itemId, quantity, at, despite } of movements) {
    if (itemId === null) continue;
    const zero = quantity.minus(quantity);
    const use = uses.get(itemId) ?? {
      lotId,
      itemId,
      issued: zero,
      returned: zero,
      firstAt: at,
      lastAt: at,
      answeredFor: false,
    };
    uses.set(itemId, {
      ...use,
      issued: kind === 'issue' ? use.issued.minus(quantity) : use.issued,
      returned: kind === 'return' ? use.returned.plus(quantity) : use.returned,
      lastAt: at,
      answeredFor: use.answeredFor || despite.length > 0,
    });
  }
  return [...uses.values()];
}

const LotUse = builder.objectRef<Use>('LotUse').implement({
  description: 'An item of work that a lot went to.',
  fields: (t) => ({
    item: t.prismaField({
      type: 'WorkItem',
      description: 'The work; its order names the aircraft.',
      resolve: (query, { itemId }, _, { read }) =>
        read.workItem.findUniqueOrThrow({ ...query, where: { id: itemId } }),
    }),
    issued: t.field({
      type: 'Decimal',
      description: 'Units issued.',
      resolve: (use) => use.issued,
    }),
    returned: t.field({
      type: 'Decimal',
      description: 'Units that came back.',
      resolve: (use) => use.returned,
    }),
    stillOn: t.field({
      type: 'Decimal',
      description:
        'Units that did not come back: on the aircraft as far as the stores know. What was taken off since is in its records.',
      resolve: ({ issued, returned }) => issued.minus(returned),
    }),
    firstAt: t.field({
      type: 'DateTime',
      description: 'When it was first issued.',
      resolve: ({ firstAt }) => firstAt,
    }),
    lastAt: t.field({
      type: 'DateTime',
      description: 'When it last moved.',
      resolve: ({ lastAt }) => lastAt,
    }),
    despite: t.prismaField({
      type: ['StockMovement'],
      description: 'Issues of it that somebody answered for by name.',
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

builder.prismaObjectFields('Lot', (t) => ({
  wentTo: t.field({
    type: [LotUse],
    description:
      'Every item of work that something of it went to: on which aircraft, how much, when.',
    select: {
      id: true,
      movements: {
        where: { kind: { in: ['issue', 'return'] } },
        orderBy: [{ at: 'asc' }, { id: 'asc' }],
        select: { kind: true, itemId: true, quantity: true, at: true, despite: true },
      },
    },
    resolve: ({ id, movements }) => usesOf(id, movements),
  }),
  sameBatch: t.prismaField({
    type: ['Lot'],
    description:
      'Other lots of the same part with the same batch or serial number: a recall is about them too.',
    select: { id: true, partId: true, batch: true },
    resolve: (query, { id, partId, batch }, _, { read }) =>
      read.lot.findMany({
        ...query,
        where: {
          partId,
          id: { not: id },
          batch: { equals: literally(batch), mode: 'insensitive' },
        },
        orderBy: [{ receivedOn: 'asc' }, { id: 'asc' }],
      }),
  }),
}));
