import type { MovementKind } from '@fairlead/database';
import { builder } from '../builder.ts';

const MovementKindType = builder.enumType('MovementKind', {
  description: 'What moved a quantity into or out of a lot.',
  values: {
    receive: { description: 'A delivery.' },
    issue: { description: 'Taken for an item of work.' },
    return: { description: 'Brought back from an item of work.' },
    scrap: { description: 'Thrown away.' },
    count: { description: 'A correction after counting.' },
  } satisfies Record<MovementKind, object>,
});

builder.prismaNode('Lot', {
  id: { field: 'id' },
  description: 'A batch, or one serialised piece, of a part, with where it came from.',
  fields: (t) => ({
    part: t.relation('part', { description: 'Of which part.' }),
    supplier: t.exposeString('supplier', { description: 'Who delivered it.' }),
    batch: t.exposeString('batch', { description: 'Batch or serial number.' }),
    tag: t.exposeString('tag', {
      description: 'Number of the release certificate that came with it; empty where none did.',
    }),
    receivedOn: t.expose('receivedOn', { type: 'Date', description: 'When it came.' }),
    shelfLifeUntil: t.expose('shelfLifeUntil', {
      type: 'Date',
      nullable: true,
      description: 'Last day on which it may be fitted; null: it does not age.',
    }),
    unitCost: t.expose('unitCost', {
      type: 'Decimal',
      description: 'What one unit cost the shop.',
    }),
    bin: t.exposeString('bin', { description: 'Where it lies.' }),
    onHand: t.expose('onHand', {
      type: 'Decimal',
      description:
        'How many units are there: the sum of its movements, kept by the database, never below zero.',
    }),
    movements: t.relation('movements', {
      description: 'What moved it, in order.',
      query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
    }),
  }),
});

builder.prismaNode('StockMovement', {
  id: { field: 'id' },
  description: 'A quantity that came into a lot or left it. Never changed.',
  fields: (t) => ({
    lot: t.relation('lot', { description: 'The lot.' }),
    item: t.relation('item', {
      nullable: true,
      description: 'The work that it went to or came back from.',
    }),
    kind: t.expose('kind', { type: MovementKindType, description: 'What it was.' }),
    quantity: t.expose('quantity', {
      type: 'Decimal',
      description: 'Units; what leaves is negative.',
    }),
    reason: t.exposeString('reason', { description: 'Why, where somebody said so.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
  }),
});
