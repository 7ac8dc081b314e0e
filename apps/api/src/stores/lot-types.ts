import type { IssueException, MovementKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { availableOf, reservedFacts } from './reserved.ts';

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

export const IssueExceptionType = builder.enumType('IssueException', {
  description: 'Against what an issue is made all the same, for a named person’s reason.',
  values: {
    no_trace: {
      description: 'Neither the number nor the document of a release certificate is kept.',
    },
    past_shelf_life: { description: 'Its last day on which it may be fitted is over.' },
    reserved_for_others: { description: 'It takes what is reserved for another order.' },
    beyond_authority: { description: 'It takes the order past what its owner agreed to.' },
  } satisfies Record<IssueException, object>,
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
    reserved: t.field({
      type: 'Decimal',
      description: 'How many of them are kept for orders that still go on.',
      select: reservedFacts,
      resolve: (lot) => availableOf(lot).reserved,
    }),
    available: t.field({
      type: 'Decimal',
      description:
        'How many are free for anybody: less than 0 where fewer are there than were reserved.',
      select: reservedFacts,
      resolve: (lot) => availableOf(lot).available,
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
    counted: t.expose('counted', {
      type: 'Decimal',
      nullable: true,
      description: 'Of a count: how many were there; the quantity is the difference.',
    }),
    fromReserved: t.expose('fromReserved', {
      type: 'Decimal',
      description: 'Of an issue: how many of them had been reserved for its order.',
    }),
    despite: t.expose('despite', {
      type: [IssueExceptionType],
      description: 'Against what it was issued, for the reason given.',
    }),
    reason: t.exposeString('reason', { description: 'Why, where somebody said so.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', {
      nullable: true,
      description: 'Who moved it; null where it was there before the program was.',
    }),
  }),
});
