import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { globalId } from '../ids.ts';
import { decideTime } from './decide-time.ts';
import { FittedModelType, fittedModel } from './fitted-model.ts';
import { type OddTimes, oddTimes, type ReviewRow, type WatchedTime } from './odd-times.ts';
import { type KeptOddTime, NEWEST_WATCHED } from './odd-times-of.ts';

const VerdictEnum = builder.enumType('TimeVerdict', {
  description: 'What a person says of a time that looked odd.',
  values: {
    stands: { description: 'It is right as clocked.' },
    left_out: { description: 'Nothing is learned from it.' },
    taken_as: { description: 'Learned from as other hours.' },
    other_task: { description: 'It was another task; learned from as that.' },
  } as const,
});

const said = (proposed: unknown): KeptOddTime['reasons'] =>
  (proposed as Partial<KeptOddTime>).reasons ?? [];

const DecisionType = builder.objectRef<ReviewRow>('TimeDecision').implement({
  description: 'What somebody decided about a time. The newest holds.',
  fields: (t) => ({
    verdict: t.expose('verdict', { type: VerdictEnum, description: 'What.' }),
    hours: t.exposeFloat('hours', {
      nullable: true,
      description: 'The hours it is taken as; null for another verdict.',
    }),
    task: t.exposeString('task', {
      nullable: true,
      description: 'Short name of the task that it was; null for another verdict.',
    }),
    reason: t.exposeString('reason', { description: 'Why.' }),
    decidedAt: t.expose('decidedAt', { type: 'DateTime', description: 'When.' }),
    decidedBy: t.string({ description: 'Who.', resolve: ({ decidedBy }) => decidedBy.name }),
    proposed: t.stringList({
      description:
        'Why it had looked odd, in the model’s sentences; empty where nobody but a person had said so.',
      resolve: ({ proposed }) => said(proposed).map(({ words }) => words),
    }),
  }),
});

const ReasonKind = builder.enumType('OddTimeReason', {
  description: 'What makes a time odd.',
  values: {
    impossible: { description: 'More hours than its people were in.' },
    too_long: { value: 'too-long', description: 'Far longer than such an item takes.' },
    too_short: { value: 'too-short', description: 'Far shorter.' },
    wrong_task: {
      value: 'wrong-task',
      description: 'It fits another task of its order far better.',
    },
  },
});

const ReasonType = builder.objectRef<KeptOddTime['reasons'][number]>('OddReason').implement({
  description: 'Why a time looks odd.',
  fields: (t) => ({
    kind: t.field({
      type: ReasonKind,
      description: 'In one word.',
      resolve: ({ kind }) => kind as 'impossible' | 'too-long' | 'too-short' | 'wrong-task',
    }),
    words: t.exposeString('words', { description: 'In a sentence.' }),
    otherTask: t.string({
      nullable: true,
      description: 'Short name of the task that it fits better; null for another reason.',
      resolve: ({ otherTask }) => otherTask ?? null,
    }),
  }),
});

const ProposalType = builder.objectRef<KeptOddTime>('OddTimeProposal').implement({
  description: 'What the model says of a time that it cannot believe.',
  fields: (t) => ({
    p10: t.float({
      description: 'Expected: one in ten is under this many hours.',
      resolve: ({ expected }) => expected.p10,
    }),
    p50: t.float({
      description: 'Expected: as likely over as under.',
      resolve: ({ expected }) => expected.p50,
    }),
    p90: t.float({
      description: 'Expected: nine in ten are under this many hours.',
      resolve: ({ expected }) => expected.p90,
    }),
    weight: t.exposeFloat('weight', {
      description:
        'How much it counts in the fit, 1 as any other: until somebody decides it counts less, and is never left out.',
    }),
    reasons: t.field({
      type: [ReasonType],
      description: 'Why.',
      resolve: ({ reasons }) => [...reasons],
    }),
  }),
});

const WatchedType = builder.objectRef<WatchedTime>('WatchedTime').implement({
  description: 'A past job whose time looks odd, or looked odd before somebody decided.',
  fields: (t) => ({
    id: t.exposeID('id', { description: 'What to decide about.' }),
    own: t.exposeBoolean('own', {
      description:
        'True: clocked here, so that its clock can be corrected. False: of a history file.',
    }),
    itemId: t.id({
      nullable: true,
      description: 'The work item; null for a row of a history file.',
      resolve: ({ own, id }) => (own ? id : null),
    }),
    orderId: t.id({
      nullable: true,
      description: 'Its order; null for a row of a history file.',
      resolve: ({ orderId }) => (orderId ? globalId('WorkOrder', orderId) : null),
    }),
    orderNumber: t.exposeInt('orderNumber', {
      nullable: true,
      description: 'Number of its order.',
    }),
    title: t.string({
      description: 'What was done.',
      resolve: ({ title, taskTitle, task }) => title ?? taskTitle ?? task,
    }),
    task: t.exposeString('task', { description: 'Short name of the task that it was clocked on.' }),
    completedOn: t.expose('completedOn', {
      type: 'Date',
      description: 'The day on which it was completed.',
    }),
    registration: t.exposeString('registration', {
      description: 'On which aircraft; empty where not recorded.',
    }),
    model: t.exposeString('model', { description: 'Its model; empty where not recorded.' }),
    mechanics: t.exposeStringList('mechanics', { description: 'Who worked on it.' }),
    hours: t.exposeFloat('hours', { description: 'Hands-on hours as clocked, all people added.' }),
    proposal: t.field({
      type: ProposalType,
      nullable: true,
      description: 'What the model says of it; null once it is decided.',
      resolve: ({ proposal }) => proposal,
    }),
    decisions: t.field({
      type: [DecisionType],
      description: 'What was decided about it, the newest first: that one holds.',
      resolve: ({ decisions }) => decisions,
    }),
  }),
});

const OddTimesType = builder.objectRef<OddTimes>('OddTimes').implement({
  description: 'Times that look odd, and what people decided about such.',
  fields: (t) => ({
    model: t.field({
      type: FittedModelType,
      nullable: true,
      description: 'The fitted model that proposes; null before the first fit.',
      resolve: ({ modelId }, _, { read }) => (modelId ? fittedModel(read, modelId) : null),
    }),
    proposed: t.field({
      type: [WatchedType],
      description: `Times to decide about, of the newest ${NEWEST_WATCHED} past jobs, the least believable first; at most 200. None is left out of learning before.`,
      resolve: ({ proposed }) => proposed,
    }),
    decided: t.field({
      type: [WatchedType],
      description: 'Times that were decided about, the newest decision first; at most 100.',
      resolve: ({ decided }) => decided,
    }),
  }),
});

builder.queryField('oddTimes', (t) =>
  t.field({
    type: OddTimesType,
    errors: {},
    description: 'Times that look odd. For the manager and the inspector, who decide about them.',
    resolve: async (_, __, context) => {
      await allow(context, 'manager', 'inspector');
      return oddTimes(context.read);
    },
  }),
);

const DecideTimeInput = builder.inputType('DecideTimeInput', {
  description: 'What is said of a time.',
  fields: (t) => ({
    timeId: t.id({ required: true, description: 'The work item, or the row of a history file.' }),
    verdict: t.field({ type: VerdictEnum, required: true, description: 'What.' }),
    hours: t.float({
      description: 'For taken_as: hands-on hours to learn from, above 0 and up to 1000.',
    }),
    task: t.string({ description: 'For other_task: short name of the task that it was.' }),
    reason: t.string({ required: true, description: 'Why: 3 to 2,000 characters.' }),
    readDecisions: t.int({
      required: true,
      description: 'How many decisions about it were there when it was read.',
    }),
  }),
});

builder.mutationField('decideTime', (t) =>
  t.field({
    type: OddTimesType,
    errors: {},
    description:
      'Decides about a time that looks odd: what is learned from it, never what was clocked or billed. For the manager and the inspector.',
    args: { input: t.arg({ type: DecideTimeInput, required: true, description: 'What is said.' }) },
    resolve: async (_, { input }, context) => {
      await decideTime(context, { ...input, hours: input.hours ?? null, task: input.task ?? null });
      return oddTimes(context.read);
    },
  }),
);
