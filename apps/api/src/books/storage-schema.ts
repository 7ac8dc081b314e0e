import { Channel } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { chargeStorage } from './charge-storage.ts';
import { setStorageRule } from './set-storage-rule.ts';
import { type Storage, storageOf } from './storage-of.ts';
import { tellReady } from './tell-ready.ts';

builder.prismaNode('StorageRule', {
  id: { field: 'id' },
  description: 'What storage costs after an aircraft is ready. Never changed: the last word holds.',
  fields: (t) => ({
    freeDays: t.exposeInt('freeDays', { description: 'Free, after the day of telling.' }),
    dayPrice: t.expose('dayPrice', {
      type: 'Decimal',
      nullable: true,
      description: 'Price of a day, before tax; null: nothing is charged.',
    }),
    at: t.expose('at', { type: 'DateTime', description: 'From when on.' }),
    by: t.relation('by', { description: 'Who set it.' }),
  }),
});

builder.prismaNode('ReadyNotice', {
  id: { field: 'id' },
  description: 'That somebody was told that an aircraft is ready. Never changed.',
  fields: (t) => ({
    told: t.exposeString('told', { description: 'Who was told.' }),
    channel: t.expose('channel', { type: Channel, description: 'By which way.' }),
    toldAt: t.expose('toldAt', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who told them.' }),
  }),
});

const StorageType = builder.objectRef<Storage>('Storage').implement({
  description: 'Storage of an aircraft after it was told ready, by the shop’s own rule.',
  fields: (t) => ({
    toldOn: t.expose('toldOn', { type: 'Date', description: 'When it was told ready.' }),
    lastOn: t.expose('lastOn', { type: 'Date', description: 'The day it left, or today.' }),
    left: t.exposeBoolean('left', { description: 'Whether it has left.' }),
    freeDays: t.exposeInt('freeDays', { description: 'Free days.' }),
    dayPrice: t.expose('dayPrice', { type: 'Decimal', description: 'Price of a day, before tax.' }),
    days: t.exposeInt('days', { description: 'Days that cost something.' }),
    charged: t.exposeInt('charged', { description: 'Of those, what is charged already.' }),
    open: t.expose('open', {
      type: 'Minor',
      description: 'What the others come to, before tax. Nothing is charged by itself.',
    }),
  }),
});

builder.prismaObjectFields('WorkOrder', (t) => ({
  readyNotices: t.relation('readyNotices', {
    description: 'Who was told that it is ready, first to last.',
    query: { orderBy: [{ toldAt: 'asc' }, { id: 'asc' }] },
  }),
  storage: t.field({
    type: StorageType,
    nullable: true,
    description:
      'What storage it has come to; null where the shop charges none, or nobody was told that it is ready.',
    select: { id: true },
    resolve: ({ id }, _, { read, now }) => storageOf(read, id, now()),
  }),
}));
builder.prismaObjectFields('Shop', (t) => ({
  storageRule: t.prismaField({
    type: 'StorageRule',
    nullable: true,
    description: 'What storage costs after an aircraft is ready; null: nothing was ever set.',
    resolve: (query, _shop, _, { read }) =>
      read.storageRule.findFirst({ ...query, orderBy: [{ at: 'desc' }, { id: 'desc' }] }),
  }),
}));

const SetStorageRuleInput = builder.inputType('SetStorageRuleInput', {
  description: 'What storage costs after an aircraft is ready.',
  fields: (t) => ({
    freeDays: t.int({ required: true, description: '0 to 3,660 days after the one of telling.' }),
    dayPrice: t.field({
      type: 'Decimal',
      description: 'Price of a day, before tax; left out: nothing is charged.',
    }),
  }),
});
const TellReadyInput = builder.inputType('TellReadyInput', {
  description: 'That somebody was told that an aircraft is ready.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The released order.' }),
    told: t.string({ required: true, description: 'Who was told, 2 to 120 characters.' }),
    channel: t.field({ type: Channel, required: true, description: 'By which way.' }),
    toldAt: t.field({ type: 'DateTime', description: 'When; left out: now.' }),
  }),
});
const ChargeStorageInput = builder.inputType('ChargeStorageInput', {
  description: 'Days of storage that are charged.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'The order.' }),
    days: t.int({ required: true, description: 'As many as are shown and not charged yet.' }),
  }),
});

builder.mutationFields((t) => ({
  setStorageRule: t.prismaField({
    type: 'Shop',
    errors: {},
    description: 'Sets what storage costs after an aircraft is ready. For the manager.',
    args: { input: t.arg({ type: SetStorageRuleInput, required: true, description: 'How much.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await setStorageRule(context, {
        freeDays: input.freeDays,
        dayPrice: input.dayPrice ?? null,
      });
      return context.read.shop.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  tellReady: t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Keeps who was told that an aircraft is ready. For the front desk, inspectors and the manager.',
    args: { input: t.arg({ type: TellReadyInput, required: true, description: 'Who, and how.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await tellReady(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        ...{ told: input.told, channel: input.channel, toldAt: input.toldAt ?? null },
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  chargeStorage: t.prismaField({
    type: 'OrderCharge',
    errors: {},
    description:
      'Charges the days of storage that are not charged yet, as they were shown. For the front desk and the manager.',
    args: { input: t.arg({ type: ChargeStorageInput, required: true, description: 'How many.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await chargeStorage(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        days: input.days,
      });
      return context.read.orderCharge.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
