import { DutyKind } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { allow } from '../../context.ts';
import { globalId, keyOf } from '../../ids.ts';
import { shopToday } from '../../today.ts';
import { addDataSource, checkData } from './data-sources.ts';
import { type Deadline, deadlinesOf } from './deadlines-of.ts';
import { doDuty } from './do-duty.ts';
import { noteDuty } from './note-duty.ts';

builder.enumType(DutyKind, {
  name: 'DutyKind',
  description: 'What is owed to the authority.',
  values: {
    major_form: {
      description:
        'The form of a major repair or alteration, within 48 hours of the approval for return to service (14 CFR part 43, Appendix B).',
    },
    defect_report: {
      description:
        'A repair station’s report of a serious defect, within 96 hours (14 CFR 145.221).',
    },
  },
});
const DeadlineKindType = builder.enumType('DeadlineKind', {
  description: 'What a deadline is about.',
  values: {
    major_form: { description: 'The form of a major repair or alteration.' },
    defect_report: { description: 'The report of a serious defect.' },
    tool: { description: 'A tool’s calibration.' },
    certificate: { description: 'A person’s certificate.' },
    data: { description: 'The revision of maintenance data.' },
  },
});
const DeadlineStateType = builder.enumType('DeadlineState', {
  description: 'How a deadline stands.',
  values: {
    late: { description: 'It has passed.' },
    soon: { description: 'Its hours run, or it lies within thirty days.' },
    open: { description: 'Later.' },
    done: { description: 'Somebody said that it was done.' },
  },
});

const DeadlineType = builder.objectRef<Deadline>('Deadline').implement({
  description: 'Something that has to be done by a day or a moment.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'The duty, tool, certificate or data source.' }),
    kind: t.field({
      type: DeadlineKindType,
      description: 'What it is about.',
      resolve: ({ kind }) => kind,
    }),
    title: t.exposeString('title', { description: 'What or who.' }),
    detail: t.exposeString('detail', { description: 'Which, in a line.' }),
    dueAt: t.expose('dueAt', {
      type: 'DateTime',
      nullable: true,
      description: 'The moment, where hours run.',
    }),
    dueOn: t.expose('dueOn', {
      type: 'Date',
      nullable: true,
      description: 'The last day, where days run.',
    }),
    state: t.field({
      type: DeadlineStateType,
      description: 'How it stands.',
      resolve: ({ state }) => state,
    }),
    doneAt: t.expose('doneAt', { type: 'DateTime', nullable: true, description: 'When done.' }),
    doneBy: t.exposeString('doneBy', { nullable: true, description: 'Who said so.' }),
    doneWords: t.exposeString('doneWords', { description: 'How.' }),
    orderId: t.id({
      nullable: true,
      description: 'The order that it comes from.',
      resolve: ({ orderId }) => orderId && globalId('WorkOrder', orderId),
    }),
  }),
});

builder.queryFields((t) => ({
  deadlines: t.field({
    type: [DeadlineType],
    description:
      'What the shop owes to the authority, and when tools, certificates and data run out; most pressing first. For the desk, inspectors and the manager.',
    resolve: async (_, __, context) => {
      await allow(context, 'front_desk', 'inspector', 'manager');
      return deadlinesOf(context.read, context.now(), await shopToday(context));
    },
  }),
}));

const NoteDutyInput = builder.inputType('NoteDutyInput', {
  description: 'Something that is owed to the authority.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'After work on which order.' }),
    kind: t.field({ type: DutyKind, required: true, description: 'What is owed.' }),
    words: t.string({
      required: true,
      description: 'Which repair, alteration or defect: 3 to 500 characters.',
    }),
    runsFrom: t.field({
      type: 'DateTime',
      description: 'Of a defect: when it was found; left out: now.',
    }),
  }),
});

builder.prismaNode('Duty', {
  id: { field: 'id' },
  description: 'Something that is owed to the authority after work on an order.',
  fields: (t) => ({
    kind: t.expose('kind', { type: DutyKind, description: 'What is owed.' }),
    words: t.exposeString('words', { description: 'Which repair, alteration or defect.' }),
    dueAt: t.expose('dueAt', { type: 'DateTime', description: 'By when.' }),
  }),
});
builder.prismaNode('DataSource', {
  id: { field: 'id' },
  description: 'Maintenance data whose revision is looked up from time to time.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'Its name.' }),
    everyDays: t.exposeInt('everyDays', { description: 'Looked up every so many days.' }),
  }),
});

builder.mutationFields((t) => ({
  noteDuty: t.prismaField({
    type: 'Duty',
    errors: {},
    description: 'Notes that something is owed to the authority, and by when.',
    args: { input: t.arg({ type: NoteDutyInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await noteDuty(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        ...{ kind: input.kind, words: input.words, runsFrom: input.runsFrom ?? null },
      });
      return context.read.duty.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  doDuty: t.prismaField({
    type: 'Duty',
    errors: {},
    description: 'Says by name that it went to the authority, or why it is not owed.',
    args: {
      dutyId: t.arg.id({ required: true, description: 'Which.' }),
      words: t.arg.string({
        required: true,
        description: 'How it went, with its number; or why it is not owed. 3 to 500 characters.',
      }),
    },
    resolve: async (query, _, { dutyId, words }, context) => {
      const id = await doDuty(context, { dutyId: keyOf('Duty', dutyId, 'dutyId'), words });
      return context.read.duty.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addDataSource: t.prismaField({
    type: 'DataSource',
    errors: {},
    description:
      'Adds maintenance data whose revision is looked up. For an inspector or the manager.',
    args: {
      title: t.arg.string({ required: true, description: 'Its name, 2 to 200 characters.' }),
      everyDays: t.arg.int({ required: true, description: 'Looked up every so many days.' }),
      revision: t.arg.string({ required: true, description: 'The revision that is current.' }),
      checkedOn: t.arg({ type: 'Date', description: 'When it was looked up; left out: today.' }),
    },
    resolve: async (query, _, { checkedOn, ...input }, context) => {
      const id = await addDataSource(context, { ...input, checkedOn: checkedOn ?? null });
      return context.read.dataSource.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  checkData: t.prismaField({
    type: 'DataSource',
    errors: {},
    description: 'Says which revision was found to be current.',
    args: {
      sourceId: t.arg.id({ required: true, description: 'Which data.' }),
      revision: t.arg.string({ required: true, description: 'The revision that is current.' }),
      checkedOn: t.arg({ type: 'Date', description: 'When it was looked up; left out: today.' }),
    },
    resolve: async (query, _, { sourceId, checkedOn, revision }, context) => {
      const id = await checkData(context, {
        ...{ sourceId: keyOf('DataSource', sourceId, 'sourceId'), revision },
        checkedOn: checkedOn ?? null,
      });
      return context.read.dataSource.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
