import type { NextCheck, Outcome, Question } from '@fairlead/diagnosis';
import { builder } from '../../builder.ts';

const QuestionKindEnum = builder.enumType('QuestionKind', {
  description: 'How an answer is got.',
  values: {
    look: { description: 'Somebody looks and answers.' },
    check: { description: 'Somebody has to do something.' },
  } satisfies Record<Question['kind'], object>,
});

const OutcomeType = builder.objectRef<Outcome>('CheckOutcome').implement({
  description: 'What one answer would mean.',
  fields: (t) => ({
    answer: t.exposeString('answer', { description: 'The answer, by its id.' }),
    words: t.exposeString('words', { description: 'In words.' }),
    probability: t.exposeFloat('probability', { description: 'How likely that is, 0 to 1.' }),
    pointsTo: t.string({
      description: 'The cause that would then be likeliest.',
      resolve: ({ points }) => points.name,
    }),
    pointsProbability: t.float({
      description: 'How likely it would then be, 0 to 1.',
      resolve: ({ points }) => points.probability,
    }),
  }),
});

export const CheckType = builder.objectRef<NextCheck>('SuggestedCheck').implement({
  description: 'A look or a check that was not made yet, and what it is worth.',
  fields: (t) => ({
    question: t.exposeString('question', { description: 'Which, by its id.' }),
    asks: t.exposeString('asks', { description: 'Which, in words.' }),
    kind: t.expose('kind', { type: QuestionKindEnum, description: 'A look or a check.' }),
    how: t.exposeString('how', { nullable: true, description: 'How it is done.' }),
    minutes: t.exposeFloat('minutes', { description: 'Hands-on minutes, waiting left out.' }),
    bits: t.exposeFloat('bits', { description: 'Expected information on the cause, bits.' }),
    outcomes: t.expose('outcomes', {
      type: [OutcomeType],
      description: 'What it may show, the likeliest first.',
    }),
    cautions: t.exposeStringList('cautions', { description: 'Hazards, shown before it is done.' }),
  }),
});
