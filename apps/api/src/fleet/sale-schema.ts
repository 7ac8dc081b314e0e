import type { Prisma } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { sellAircraft } from './sell-aircraft.ts';

builder.prismaNode('AircraftSale', {
  id: { field: 'id' },
  description:
    'That an aircraft changed hands. Never changed. Its records go with it (14 CFR 91.419).',
  fields: (t) => ({
    aircraft: t.relation('aircraft', { description: 'Which aircraft.' }),
    seller: t.relation('seller', { description: 'Whose it was.' }),
    buyer: t.relation('buyer', { description: 'Whose it is from then on.' }),
    soldOn: t.expose('soldOn', { type: 'Date', description: 'On which day.' }),
    cutAt: t.expose('cutAt', {
      type: 'DateTime',
      description: 'Until when work is the seller’s to pay.',
    }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was recorded.' }),
    by: t.relation('by', { description: 'Who recorded it.' }),
    orders: t.prismaField({
      type: ['WorkOrder'],
      description: 'Orders that went on then: each is billed to the seller to date.',
      select: (_args, _context, nested) => ({ orders: { select: { order: nested() } } }),
      resolve: (_query, { orders }) => orders.map(({ order }) => order),
    }),
    invoices: t.relation('invoices', {
      description: 'What was billed to the seller to date, and credited.',
      query: { orderBy: [{ draftedAt: 'asc' }, { id: 'asc' }] },
    }),
  }),
});

const asSold = {
  orderBy: [{ soldOn: 'asc' }, { at: 'asc' }, { id: 'asc' }],
} satisfies Prisma.AircraftSaleFindManyArgs;

builder.prismaObjectFields('Aircraft', (t) => ({
  sales: t.relation('sales', {
    description: 'How it changed hands, first to last.',
    query: asSold,
  }),
}));
builder.prismaObjectFields('Invoice', (t) => ({
  sale: t.relation('sale', {
    nullable: true,
    description: 'The sale up to which it bills the seller; null: it bills the owner of now.',
  }),
}));

const SellAircraftInput = builder.inputType('SellAircraftInput', {
  description: 'That an aircraft changed hands.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    buyerId: t.id({ required: true, description: 'Who bought it.' }),
    soldOn: t.field({
      type: 'Date',
      required: true,
      description: 'On which day, up to today and no more than a year ago.',
    }),
    note: t.string({ description: 'More of it, at most 500 characters.' }),
  }),
});

builder.mutationFields((t) => ({
  sellAircraft: t.prismaField({
    type: 'Aircraft',
    errors: {},
    description:
      'Keeps that an aircraft changed hands: what the seller agreed to lapses, their links are taken back, what is not done is put off until the new owner says yes. For the front desk and the manager.',
    args: { input: t.arg({ type: SellAircraftInput, required: true, description: 'To whom.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await sellAircraft(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        buyerId: keyOf('Contact', input.buyerId, 'buyerId'),
        soldOn: input.soldOn,
        note: input.note ?? null,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
