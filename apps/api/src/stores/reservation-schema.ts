import type { ReservationKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { releaseReserved, reservePart } from './reserve-part.ts';
import { reservedFacts, reservedFor } from './reserved.ts';

const ReservationKindType = builder.enumType('ReservationKind', {
  description: 'Whether units were kept for an order or given free again.',
  values: {
    reserved: { description: 'Kept for the order.' },
    released: { description: 'Given free by the order.' },
  } satisfies Record<ReservationKind, object>,
});

builder.prismaNode('ReservationEvent', {
  id: { field: 'id' },
  description: 'Units of a lot that were kept for an order, or given free again. Never changed.',
  fields: (t) => ({
    lot: t.relation('lot', { description: 'The lot.' }),
    order: t.relation('order', { description: 'The order.' }),
    kind: t.expose('kind', { type: ReservationKindType, description: 'What it was.' }),
    quantity: t.expose('quantity', { type: 'Decimal', description: 'Units, more than 0.' }),
    reason: t.exposeString('reason', { description: 'Why, where somebody said so.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who did it.' }),
  }),
});

const Reserved = builder
  .objectRef<{ lotId: string; orderId: string; quantity: string }>('ReservedOfLot')
  .implement({
    description: 'What is kept of a lot for an order now.',
    fields: (t) => ({
      lot: t.prismaField({
        type: 'Lot',
        description: 'Of which lot.',
        resolve: (query, { lotId }, _, { read }) =>
          read.lot.findUniqueOrThrow({ ...query, where: { id: lotId } }),
      }),
      order: t.prismaField({
        type: 'WorkOrder',
        description: 'For which order.',
        resolve: (query, { orderId }, _, { read }) =>
          read.workOrder.findUniqueOrThrow({ ...query, where: { id: orderId } }),
      }),
      quantity: t.field({
        type: 'Decimal',
        description: 'How many units.',
        resolve: ({ quantity }) => quantity,
      }),
    }),
  });

builder.prismaObjectFields('Lot', (t) => ({
  reservedFor: t.field({
    type: [Reserved],
    description: 'For which orders it is kept now, and how much of it.',
    select: { id: true, ...reservedFacts },
    resolve: ({ id, ...facts }) =>
      [...reservedFor(facts)].map(([orderId, quantity]) => ({
        lotId: id,
        orderId,
        quantity: quantity.toFixed(),
      })),
  }),
  reservations: t.relation('reservations', {
    description: 'What was kept and given free, in order.',
    query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  }),
}));

builder.prismaObjectField('WorkOrder', 'reserved', (t) =>
  t.field({
    type: [Reserved],
    description: 'The parts that are kept for it now.',
    select: {
      id: true,
      reservations: { select: { lot: { select: { id: true, ...reservedFacts } } } },
    },
    resolve: ({ id: orderId, reservations }) => {
      const lots = new Map(reservations.map(({ lot }) => [lot.id, lot]));
      return [...lots].flatMap(([lotId, facts]) => {
        const quantity = reservedFor(facts).get(orderId);
        return quantity ? [{ lotId, orderId, quantity: quantity.toFixed() }] : [];
      });
    },
  }),
);

const ReservePartInput = builder.inputType('ReservePartInput', {
  description: 'Units of a lot, for an order.',
  fields: (t) => ({
    lotId: t.id({ required: true, description: 'The lot.' }),
    orderId: t.id({ required: true, description: 'The order, planned or here.' }),
    quantity: t.field({
      type: 'Decimal',
      required: true,
      description: 'Units: more than 0, with at most 3 decimals.',
    }),
    reason: t.string({ description: 'Why, at most 300 characters.' }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that what is sent twice counts once.',
    }),
  }),
});

const does = {
  reservePart: [reservePart, 'Keeps units of a lot for an order. Never more than lies free.'],
  releaseReserved: [releaseReserved, 'Gives free what was kept for an order, whole or in part.'],
} as const;

for (const [name, [act, description]] of Object.entries(does))
  builder.mutationField(name, (t) =>
    t.prismaField({
      type: 'Lot',
      errors: {},
      description,
      args: {
        input: t.arg({ type: ReservePartInput, required: true, description: 'What for which.' }),
      },
      resolve: async (query, _, { input }, context) => {
        const id = await act(context, {
          lotId: keyOf('Lot', input.lotId, 'lotId'),
          orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
          quantity: input.quantity,
          reason: input.reason ?? null,
          clientEventId: input.clientEventId ?? null,
        });
        return context.read.lot.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
  );
