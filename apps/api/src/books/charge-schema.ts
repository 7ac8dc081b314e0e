import { ChargeKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addOrderCharge, endOrderCharge } from './order-charges.ts';

builder.prismaNode('OrderCharge', {
  id: { field: 'id' },
  description:
    'What is charged on an order besides what was quoted. Never changed: it is taken back, and another made.',
  fields: (t) => ({
    order: t.relation('order', { description: 'On which order.' }),
    kind: t.expose('kind', { type: ChargeKind, description: 'What it is for.' }),
    title: t.exposeString('title', { description: 'In words.' }),
    amount: t.expose('amountMinor', { type: 'Minor', description: 'Before tax.' }),
    cost: t.field({
      type: 'Minor',
      nullable: true,
      description: 'What it costs the shop, before tax. For the front desk and the manager.',
      select: { costMinor: true },
      resolve: async ({ costMinor }, _, context) =>
        (await context.roles()).some((role) => role === 'front_desk' || role === 'manager')
          ? costMinor
          : null,
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said so.' }),
    ended: t.string({
      nullable: true,
      description: 'Why it is not charged after all; null: it is.',
      select: { ends: { select: { reason: true } } },
      resolve: ({ ends }) => ends[0]?.reason ?? null,
    }),
  }),
});

builder.prismaObjectFields('WorkOrder', (t) => ({
  charges: t.relation('charges', {
    description: 'What is charged on it besides what was quoted; what was taken back among it.',
    query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
  }),
}));

const AddOrderChargeInput = builder.inputType('AddOrderChargeInput', {
  description: 'What is charged besides what was quoted. One of a price and a cost.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    kind: t.field({ type: ChargeKind, required: true, description: 'What it is for.' }),
    title: t.string({ description: 'In words; left out: the usual ones, where there are any.' }),
    price: t.field({ type: 'Minor', description: 'Before tax.' }),
    cost: t.field({ type: 'Minor', description: 'What it costs the shop, before tax.' }),
    percent: t.field({ type: 'Decimal', description: 'Mark-up on the cost.' }),
  }),
});
const EndOrderChargeInput = builder.inputType('EndOrderChargeInput', {
  description: 'What is not charged after all.',
  fields: (t) => ({
    chargeId: t.id({ required: true, description: 'The charge.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
  }),
});

builder.mutationFields((t) => ({
  addOrderCharge: t.prismaField({
    type: 'OrderCharge',
    errors: {},
    description:
      'Charges something on an order besides what was quoted; it needs the owner’s yes like other work. For the front desk and the manager.',
    args: {
      input: t.arg({ type: AddOrderChargeInput, required: true, description: 'What.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const { kind, title = null, price = null, cost = null, percent = null } = input;
      const id = await addOrderCharge(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        charge: { kind, title, price, cost, percent, atMost: null },
      });
      return context.read.orderCharge.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  endOrderCharge: t.prismaField({
    type: 'OrderCharge',
    errors: {},
    description: 'Takes a charge back. For the front desk and the manager.',
    args: {
      input: t.arg({ type: EndOrderChargeInput, required: true, description: 'Which, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await endOrderCharge(context, {
        chargeId: keyOf('OrderCharge', input.chargeId, 'chargeId'),
        reason: input.reason,
      });
      return context.read.orderCharge.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
