import { PartDisposition } from '@fairlead/database';
import { builder } from '../../builder.ts';
import type { Context } from '../../context.ts';
import { globalId } from '../../ids.ts';
import { orderFacts, orderState } from '../../states.ts';
import { CountsType } from '../counts-schema.ts';
import { type PartTime, timesOf } from '../fitted-parts.ts';
import { type PartStay, staysOf, withReading } from './stays-of.ts';

const StayType = builder.objectRef<PartStay>('PartStay').implement({
  description: 'Where a part was, from when to when, and its own time at both ends.',
  fields: (t) => ({
    id: t.id({
      description: 'The stay: what is said of it names it.',
      resolve: ({ id }) => globalId('PartStay', id),
    }),
    fittedInWork: t.exposeString('fittedInWork', {
      nullable: true,
      description: 'In the course of which work it was fitted.',
    }),
    removedInWork: t.exposeString('removedInWork', {
      nullable: true,
      description: 'In the course of which work it came off.',
    }),
    disposition: t.expose('disposition', {
      type: PartDisposition,
      nullable: true,
      description: 'What became of it as it came off.',
    }),
    dispositionWords: t.exposeString('dispositionWords', {
      description: 'Where it is kept, or how it was made useless.',
    }),
    aircraft: t.string({ description: 'The aircraft.', resolve: (stay) => stay.registration }),
    position: t.exposeString('position', { description: 'Where on it.' }),
    carriedBy: t.exposeString('carriedBy', {
      nullable: true,
      description: 'The part that carried it.',
    }),
    fittedAt: t.expose('fittedAt', { type: 'DateTime', description: 'When it was fitted.' }),
    fittedBy: t.exposeString('fittedBy', { nullable: true, description: 'By whom.' }),
    aircraftAtFitting: t.exposeInt('aircraftAtFitting', {
      description: 'Time in service of the aircraft then, hundredths of an hour.',
    }),
    ownAtFitting: t.exposeInt('ownAtFitting', {
      nullable: true,
      description: 'The part’s own time then, hundredths of an hour.',
    }),
    removedAt: t.expose('removedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it came off; null: it is there.',
    }),
    removedBy: t.exposeString('removedBy', { nullable: true, description: 'By whom.' }),
    aircraftAtRemoval: t.exposeInt('aircraftAtRemoval', {
      nullable: true,
      description: 'Time in service of the aircraft at removal, hundredths of an hour.',
    }),
    ownAtRemoval: t.exposeInt('ownAtRemoval', {
      nullable: true,
      description: 'The part’s own time at removal, hundredths of an hour.',
    }),
    countedThere: t.field({
      type: CountsType,
      description: 'What it counted there, once it is off.',
      resolve: (stay) => stay.countedThere,
    }),
    removalWords: t.exposeString('removalWords', { description: 'Why it came off.' }),
  }),
});

const TimesType = builder.objectRef<PartTime>('PartTimes').implement({
  description: 'A part’s own times, hundredths of an hour.',
  fields: (t) => ({
    tisHundredths: t.exposeInt('tisHundredths', {
      nullable: true,
      description: 'Since new; null where it cannot be told.',
    }),
    problem: t.exposeString('problem', {
      nullable: true,
      description: 'Why it cannot be told.',
    }),
    sinceOverhaulHundredths: t.exposeInt('sinceOverhaulHundredths', {
      nullable: true,
      description: 'Since its last overhaul; null: none is known here.',
    }),
    counts: t.field({
      type: CountsType,
      description: 'Its own cycles, landings and starts since new.',
      resolve: ({ counts }) => counts,
    }),
    lifeLimitHundredths: t.exposeInt('lifeLimitHundredths', {
      nullable: true,
      description: 'Its life; null: none is entered.',
    }),
  }),
});

builder.prismaObjectFields('Component', (t) => ({
  times: t.field({
    type: TimesType,
    description: 'Its own times, wherever it was: they go with it.',
    select: withReading,
    resolve: (part) => {
      const on = part.fittings.find(({ removedAt }) => removedAt === null);
      return timesOf(part, on?.aircraft.readings ?? []);
    },
  }),
  stays: t.field({
    type: [StayType],
    description: 'Where it was, newest first.',
    select: withReading,
    resolve: staysOf,
  }),
  aircraft: t.prismaField({
    type: 'Aircraft',
    nullable: true,
    description: 'The aircraft that it is fitted to; null: it lies on the shelf.',
    select: { fittings: { where: { removedAt: null }, select: { aircraftId: true } } },
    resolve: (query, { fittings: [on] }, _, { read }) =>
      on ? read.aircraft.findUnique({ ...query, where: { id: on.aircraftId } }) : null,
  }),
}));

/** Items of an aircraft's orders that are here: in whose course parts go on and come off. */
async function workHere(read: Context['read'], aircraftId: string): Promise<string[]> {
  const orders = await read.workOrder.findMany({
    where: { aircraftId, events: { some: { kind: 'arrived' } } },
    orderBy: { number: 'asc' },
    select: { ...orderFacts, items: { select: { id: true, ...orderFacts.items.select } } },
  });
  return orders
    .filter((order) => ['here', 'ready_to_sign'].includes(orderState(order)))
    .flatMap(({ items }) => items.map(({ id }) => id));
}

builder.prismaObjectField('Aircraft', 'workHere', (t) =>
  t.prismaField({
    type: ['WorkItem'],
    description: 'Items of its orders that are here: in whose course parts go on and come off.',
    select: { id: true },
    resolve: async (query, { id }, _, { read }) =>
      read.workItem.findMany({
        ...query,
        where: { id: { in: await workHere(read, id) } },
        orderBy: [{ orderId: 'asc' }, { position: 'asc' }],
      }),
  }),
);
builder.prismaObjectField('Component', 'workLately', (t) =>
  t.prismaField({
    type: ['WorkItem'],
    description: 'Work that is here on the aircraft that it is on, or was on last.',
    select: {
      fittings: {
        orderBy: [{ fittedAt: 'desc' }, { id: 'desc' }],
        take: 1,
        select: { aircraftId: true },
      },
    },
    resolve: async (query, { fittings: [last] }, _, { read }) =>
      read.workItem.findMany({
        ...query,
        where: { id: { in: last ? await workHere(read, last.aircraftId) : [] } },
        orderBy: [{ orderId: 'asc' }, { position: 'asc' }],
      }),
  }),
);

builder.queryFields((t) => ({
  components: t.prismaField({
    type: ['Component'],
    description: 'The serialised parts that the shop knows: fitted, or on the shelf.',
    resolve: (query, _, __, { read }) =>
      read.component.findMany({
        ...query,
        orderBy: [{ title: 'asc' }, { partNumber: 'asc' }, { serial: 'asc' }],
      }),
  }),
}));
