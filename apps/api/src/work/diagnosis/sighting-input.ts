import { builder } from '../../builder.ts';

const AnswerInput = builder.inputType('SightingAnswerInput', {
  description: 'An answer to one question of a symptom.',
  fields: (t) => ({
    question: t.string({ required: true, description: 'The question, by its id.' }),
    answer: t.string({
      description: 'The answer, by its id; null takes an earlier answer back.',
    }),
  }),
});

export const SightingInput = builder.inputType('SightingInput', {
  description:
    'What is seen, in the terms of the tables of causes: ids there are never given to anything else.',
  fields: (t) => ({
    symptom: t.string({ required: true, description: 'What is noticed, by its id.' }),
    answers: t.field({
      type: [AnswerInput],
      required: true,
      description: 'Answers to its questions; what is not known is left out.',
    }),
  }),
});
