import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { globalId, keyOf } from '../ids.ts';
import { answerForgottenClock } from './answer-forgotten-clock.ts';
import { clientEventIdWords } from './device-inputs.ts';
import { type ForgottenClock, forgottenClocks, type StopSuggestion } from './forgotten-clocks.ts';

const Why = builder.enumType('WhyForgotten', {
  description: 'Why a clock looks as if it had been left running.',
  values: {
    ran_past_hours: { description: 'It ran past the end of its person’s hours.' },
    ran_very_long: { description: 'It ran twelve hours, and nothing says when its person is in.' },
    longer_than_such_jobs: {
      description: 'It ran longer than 99 in 100 such items take altogether.',
    },
  } as const,
});

const SuggestionKind = builder.enumType('StopSuggestionKind', {
  description: 'Where a suggested time comes from.',
  values: {
    end_of_hours: { description: 'The end of its person’s hours on that day.' },
    last_sign: { description: 'The last thing that they are known to have done.' },
  } as const,
});

const Suggestion = builder.objectRef<StopSuggestion>('StopSuggestion').implement({
  description: 'A time at which somebody may have stopped.',
  fields: (t) => ({
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    kind: t.expose('kind', { type: SuggestionKind, description: 'Where it comes from.' }),
    what: t.exposeString('what', {
      description: 'For a last sign: what it was; otherwise empty.',
    }),
  }),
});

export const ForgottenClockType = builder.objectRef<ForgottenClock>('ForgottenClock').implement({
  description:
    'A clock that looks as if it had been left running, and of which nobody has said yet how it was. It counts meanwhile.',
  fields: (t) => ({
    startId: t.id({
      description: 'The clock event that began it: what an answer names.',
      resolve: ({ startId }) => globalId('ClockEvent', startId),
    }),
    person: t.prismaField({
      type: 'Person',
      description: 'Whose clock.',
      resolve: (query, { personId }, _, { read }) =>
        read.person.findUniqueOrThrow({ ...query, where: { id: personId } }),
    }),
    item: t.prismaField({
      type: 'WorkItem',
      description: 'On what.',
      resolve: (query, { itemId }, _, { read }) =>
        read.workItem.findUniqueOrThrow({ ...query, where: { id: itemId } }),
    }),
    startedAt: t.expose('startedAt', { type: 'DateTime', description: 'From when it ran.' }),
    endedAt: t.expose('endedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'To when; null: it runs.',
    }),
    why: t.expose('why', { type: Why, description: 'Why it looks so.' }),
    p99Hours: t.exposeFloat('p99Hours', {
      nullable: true,
      description: 'The hours that 99 in 100 such items stay under; null where that is not why.',
    }),
    suggestions: t.field({
      type: [Suggestion],
      description: 'When its person may have stopped, earliest first.',
      resolve: ({ suggestions }) => suggestions,
    }),
  }),
});

const ForgottenClocks = builder.objectRef<ForgottenClock[]>('ForgottenClocks').implement({
  description: 'Clocks that look as if they had been left running.',
  fields: (t) => ({
    clocks: t.field({
      type: [ForgottenClockType],
      description: 'Those that wait for an answer, the oldest first.',
      resolve: (clocks) => clocks,
    }),
  }),
});

builder.queryField('forgottenClocks', (t) =>
  t.field({
    type: ForgottenClocks,
    errors: {},
    description:
      'Everybody’s clocks that look forgotten and wait for an answer. For the front desk, the inspector and the manager.',
    resolve: async (_, __, context) => {
      await allow(context, 'front_desk', 'inspector', 'manager');
      return forgottenClocks(context.read, null, context.now());
    },
  }),
);

const AnswerInput = builder.inputType('AnswerForgottenClockInput', {
  description: 'How it was with a clock that looks forgotten.',
  fields: (t) => ({
    startId: t.id({ required: true, description: 'The clock event that began it.' }),
    stoppedAt: t.field({
      type: 'DateTime',
      description: 'When its person really stopped; left out: the clock is right as it is.',
    }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
    clientEventId: t.string({ required: true, description: clientEventIdWords }),
  }),
});

builder.mutationField('answerForgottenClock', (t) =>
  t.prismaField({
    type: 'ClockEvent',
    errors: {},
    description:
      'Says how it was with a clock that looks forgotten, by one more event. For its person, and for the manager.',
    args: { input: t.arg({ type: AnswerInput, required: true, description: 'How it was.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await answerForgottenClock(context, {
        ...input,
        stoppedAt: input.stoppedAt ?? null,
        startId: keyOf('ClockEvent', String(input.startId), 'startId'),
      });
      return context.read.clockEvent.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
