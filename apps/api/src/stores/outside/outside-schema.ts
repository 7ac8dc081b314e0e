import type { Prisma } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { globalId, keyOf } from '../../ids.ts';
import { shopToday } from '../../today.ts';
import { billOutside } from './bill-outside.ts';
import { isOverdue, outsideFacts, promisedOnOf, returnedOf } from './outside-facts.ts';
import { promiseBack } from './promise-back.ts';
import { returnOutside } from './return-outside.ts';
import { sendOut } from './send-out.ts';

builder.prismaNode('OutsideDocument', {
  id: { field: 'id' },
  description: 'A release tag as photo or PDF, kept as it came.',
  fields: (t) => ({
    url: t.string({
      description: 'Where it is fetched.',
      select: { id: true },
      resolve: ({ id }) => `/certificates/outside/${globalId('OutsideDocument', id)}`,
    }),
    name: t.exposeString('name', { description: 'What the file was called when it came.' }),
    mime: t.exposeString('mime', { description: 'application/pdf or image/jpeg.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was kept.' }),
    by: t.relation('by', { description: 'Who kept it.' }),
  }),
});

builder.prismaNode('OutsideBill', {
  id: { field: 'id' },
  description:
    'What another shop bills, and how the customer pays it. For the front desk and the manager.',
  fields: (t) => ({
    reference: t.exposeString('reference', { description: 'Number of the bill.' }),
    cost: t.field({
      type: 'Minor',
      nullable: true,
      description: 'Before tax. For the front desk and the manager; null for others.',
      select: { costMinor: true },
      resolve: async ({ costMinor }, _, context) =>
        (await context.roles()).some((role) => role === 'front_desk' || role === 'manager')
          ? costMinor
          : null,
    }),
    charge: t.relation('charge', { nullable: true, description: 'The charge made for it.' }),
    quoteLine: t.relation('quoteLine', {
      nullable: true,
      description: 'The charge of the quote that it is part of.',
    }),
  }),
});

builder.prismaNode('OutsideJob', {
  id: { field: 'id' },
  description: 'Something of an aircraft that is worked on in another shop.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number, from 1 in the shop.' }),
    item: t.relation('item', { description: 'The work that waits for it.' }),
    vendor: t.exposeString('vendor', { description: 'With whom it is.' }),
    what: t.exposeString('what', { description: 'What was sent, and what for.' }),
    partNumber: t.exposeString('partNumber', { description: 'Part number, where it has one.' }),
    serial: t.exposeString('serial', { description: 'Serial number, where it has one.' }),
    sentAt: t.expose('at', { type: 'DateTime', description: 'When it was sent.' }),
    by: t.relation('by', { description: 'Who sent it.' }),
    promisedOn: t.field({
      type: 'Date',
      nullable: true,
      description: 'For which day it is promised, as was said last; null: nobody can say.',
      select: outsideFacts,
      resolve: promisedOnOf,
    }),
    promisedBy: t.string({
      nullable: true,
      description: 'Who said so.',
      select: outsideFacts,
      resolve: ({ events }) => events.findLast(({ kind }) => kind === 'promised')?.saidBy ?? null,
    }),
    overdue: t.boolean({
      description: 'Whether it is out past the day for which it was promised.',
      select: outsideFacts,
      resolve: async (job, _, context) => isOverdue(job, await shopToday(context)),
    }),
    returnedAt: t.field({
      type: 'DateTime',
      nullable: true,
      description: 'When it came back; null: it is out.',
      select: outsideFacts,
      resolve: (job) => returnedOf(job)?.at ?? null,
    }),
    tag: t.string({
      description: 'Number of the release tag that it came back with; empty where none is kept.',
      select: outsideFacts,
      resolve: (job) => returnedOf(job)?.tag ?? '',
    }),
    withoutTag: t.string({
      nullable: true,
      description: 'Why it was taken back without a tag; null: it has one, or it is out.',
      select: outsideFacts,
      resolve: (job) => returnedOf(job)?.reason || null,
    }),
    returnedBy: t.prismaField({
      type: 'Person',
      nullable: true,
      description: 'Who took it back; it is their reason where it has no tag.',
      select: (_args, _context, nested) => ({
        events: {
          orderBy: outsideFacts.events.orderBy,
          select: { ...outsideFacts.events.select, by: nested() },
        },
      }),
      resolve: (_query, { events }) => events.find(({ kind }) => kind === 'returned')?.by ?? null,
    }),
    documents: t.relation('documents', {
      description: 'Its release tag, page by page where it was photographed so.',
      query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
    }),
    bills: t.relation('bills', { description: 'What the other shop bills for it: one, or none.' }),
  }),
});

const asSent = { orderBy: [{ at: 'asc' }, { id: 'asc' }] } satisfies Prisma.OutsideJobFindManyArgs;
const isOut = { events: { none: { kind: 'returned' } } } satisfies Prisma.OutsideJobWhereInput;

builder.prismaObjectFields('WorkItem', (t) => ({
  outside: t.relation('outside', {
    description: 'What of it is or was with another shop, as it was sent.',
    query: asSent,
  }),
}));

builder.queryFields((t) => ({
  outsideWork: t.prismaField({
    type: ['OutsideJob'],
    description: 'What is with other shops now, the first one sent first, at most 500.',
    resolve: (query, _, __, { read }) =>
      read.outsideJob.findMany({ ...query, where: isOut, ...asSent, take: 500 }),
  }),
}));

const promisedOn = 'The day, from today to two years on; left out: nobody can say.';
const SendOutInput = builder.inputType('SendOutInput', {
  description: 'Something that goes to another shop.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: 'The work that waits for it.' }),
    vendor: t.string({ required: true, description: 'To whom, 2 to 120 characters.' }),
    what: t.string({ required: true, description: 'What, and what for, 3 to 200 characters.' }),
    partNumber: t.string({ description: 'At most 60 characters.' }),
    serial: t.string({ description: 'At most 60 characters.' }),
    promisedOn: t.field({ type: 'Date', description: promisedOn }),
    sentAt: t.field({ type: 'DateTime', description: 'When; left out: now.' }),
  }),
});
const PromiseBackInput = builder.inputType('PromiseBackInput', {
  description: 'When something comes back from another shop.',
  fields: (t) => ({
    jobId: t.id({ required: true, description: 'The outside job.' }),
    promisedOn: t.field({ type: 'Date', description: promisedOn }),
    saidBy: t.string({ required: true, description: 'Who said so, 1 to 120 characters.' }),
  }),
});
const ReturnOutsideInput = builder.inputType('ReturnOutsideInput', {
  description: 'That something came back from another shop.',
  fields: (t) => ({
    jobId: t.id({ required: true, description: 'The outside job.' }),
    tag: t.string({
      description: 'Number of its release tag, at most 60 characters; or its photo is kept before.',
    }),
    withoutTag: t.boolean({ description: 'Whoever takes it back knows that it has none.' }),
    reason: t.string({
      description: 'Without a tag: why it is taken back, 3 to 500 characters, under their name.',
    }),
  }),
});
const BillOutsideInput = builder.inputType('BillOutsideInput', {
  description: 'What another shop bills.',
  fields: (t) => ({
    jobId: t.id({ required: true, description: 'The outside job.' }),
    reference: t.string({ required: true, description: 'Number of the bill, 1 to 60 characters.' }),
    cost: t.field({ type: 'Minor', required: true, description: 'Before tax, more than 0.' }),
    percent: t.field({ type: 'Decimal', description: 'Mark-up on it.' }),
    quoteLineId: t.id({
      description: 'The agreed charge of the quote that it is part of; left out: charged on top.',
    }),
  }),
});

const changed = { type: 'OutsideJob', errors: {} } as const;
builder.mutationFields((t) => ({
  sendOut: t.prismaField({
    ...changed,
    description: 'Keeps that something went to another shop. For everybody of the shop.',
    args: { input: t.arg({ type: SendOutInput, required: true, description: 'What, to whom.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await sendOut(context, {
        itemId: keyOf('WorkItem', input.itemId, 'itemId'),
        ...{ vendor: input.vendor, what: input.what, partNumber: input.partNumber ?? null },
        ...{ serial: input.serial ?? null, promisedOn: input.promisedOn ?? null },
        sentAt: input.sentAt ?? null,
      });
      return context.read.outsideJob.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  promiseBack: t.prismaField({
    ...changed,
    description: 'Keeps another word on when it comes back. For everybody of the shop.',
    args: { input: t.arg({ type: PromiseBackInput, required: true, description: 'When.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await promiseBack(context, {
        jobId: keyOf('OutsideJob', input.jobId, 'jobId'),
        promisedOn: input.promisedOn ?? null,
        saidBy: input.saidBy,
      });
      return context.read.outsideJob.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  returnOutside: t.prismaField({
    ...changed,
    description:
      'Keeps that it came back with its release tag, or without one for a reason. For everybody of the shop.',
    args: { input: t.arg({ type: ReturnOutsideInput, required: true, description: 'With what.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await returnOutside(context, {
        jobId: keyOf('OutsideJob', input.jobId, 'jobId'),
        tag: input.tag ?? null,
        withoutTag: input.withoutTag ?? false,
        reason: input.reason ?? null,
      });
      return context.read.outsideJob.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  billOutside: t.prismaField({
    ...changed,
    description:
      'Keeps what the other shop bills, and charges it with its mark-up. For the front desk and the manager.',
    args: { input: t.arg({ type: BillOutsideInput, required: true, description: 'How much.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await billOutside(context, {
        jobId: keyOf('OutsideJob', input.jobId, 'jobId'),
        ...{ reference: input.reference, cost: input.cost, percent: input.percent ?? null },
        quoteLineId: input.quoteLineId
          ? keyOf('QuoteLine', input.quoteLineId, 'quoteLineId')
          : null,
      });
      return context.read.outsideJob.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
