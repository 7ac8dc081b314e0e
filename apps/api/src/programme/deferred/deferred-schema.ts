import { FindingClass } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { globalId } from '../../ids.ts';
import { shopToday } from '../../today.ts';
import { dueListsOf } from '../due-list.ts';
import { dateOf } from '../due-terms.ts';
import { DueStateType } from '../schema.ts';
import { type DeferredLine, deferredOf } from './deferred-of.ts';

const DeferredType = builder.objectRef<DeferredLine>('DeferredFinding').implement({
  description: 'A finding that was put off, and how the aircraft stands against its limit.',
  fields: (t) => ({
    findingId: t.id({
      description: 'The finding.',
      resolve: ({ findingId }) => globalId('Finding', findingId),
    }),
    orderId: t.id({
      description: 'The order on which it was found.',
      resolve: ({ orderId }) => globalId('WorkOrder', orderId),
    }),
    orderNumber: t.exposeInt('orderNumber', { description: 'Its number.' }),
    number: t.exposeInt('number', { description: 'Number of the finding on that order.' }),
    title: t.exposeString('title', { description: 'What was found.' }),
    class: t.field({
      type: FindingClass,
      description: 'Its class.',
      resolve: (line) => line.class,
    }),
    inoperative: t.exposeString('inoperative', {
      nullable: true,
      description:
        'That it stays inoperative, as 14 CFR 91.213(d) permits; null: nobody found that.',
    }),
    reason: t.exposeString('reason', { description: 'Why it was put off.' }),
    state: t.field({
      type: DueStateType,
      nullable: true,
      description: 'How the aircraft stands; null: nobody said until when.',
      resolve: ({ due }) => due?.state ?? null,
    }),
    because: t.exposeString('because', { description: 'Until when, in words.' }),
    dueOn: t.field({
      type: 'Date',
      nullable: true,
      description: 'The last day.',
      resolve: ({ due }) => (due?.due.date === undefined ? null : dateOf(due.due.date)),
    }),
    dueAtHundredths: t.int({
      nullable: true,
      description: 'The time in service by which it is due, hundredths of an hour.',
      resolve: ({ due }) => due?.due.tis ?? null,
    }),
    remainingHundredths: t.int({
      nullable: true,
      description: 'Hours left, hundredths; below 0 past due.',
      resolve: ({ due }) => due?.remaining.hours ?? null,
    }),
    remainingDays: t.int({
      nullable: true,
      description: 'Days left; below 0 past due.',
      resolve: ({ due }) => due?.remaining.days ?? null,
    }),
    quotable: t.boolean({
      description: 'Whether it was priced with a task, so that it can go onto the next quote.',
      resolve: ({ taskIds }) => taskIds.length > 0,
    }),
  }),
});

builder.prismaObjectField('Aircraft', 'deferred', (t) =>
  t.field({
    type: [DeferredType],
    description: 'Findings that were put off and not put right since, most pressing first.',
    select: { id: true },
    resolve: async ({ id }, _, context) => {
      const today = await shopToday(context);
      const [list] = await dueListsOf(context.read, id, today);
      if (!list) throw new Error('an aircraft that was read has its list');
      return deferredOf(context.read, list, today);
    },
  }),
);
