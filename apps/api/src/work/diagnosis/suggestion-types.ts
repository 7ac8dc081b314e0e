import { builder } from '../../builder.ts';
import { CauseType } from './cause-types.ts';
import { CheckType } from './check-types.ts';
import type { DoneBefore } from './known-before.ts';
import type { SuggestedCauses } from './suggest-causes.ts';

const StandingEnum = builder.enumType('SuggestionStanding', {
  description: 'Whether a cause stands out.',
  values: {
    stands_out: { description: 'The first is likelier than all others together.' },
    unsure: { description: 'None is, or what is seen fits none of those listed.' },
  },
});

interface SeenAnswer {
  question: string;
  asks: string;
  answer: string;
  words: string;
  fromOrders: boolean;
}

const SeenAnswerType = builder.objectRef<SeenAnswer>('SeenAnswer').implement({
  description: 'One thing that is seen or known of a finding.',
  fields: (t) => ({
    question: t.exposeString('question', { description: 'The question, by its id.' }),
    asks: t.exposeString('asks', { description: 'The question in words.' }),
    answer: t.exposeString('answer', { description: 'The answer, by its id.' }),
    words: t.exposeString('words', { description: 'The answer in words.' }),
    fromOrders: t.exposeBoolean('fromOrders', {
      description: "Taken from the shop's orders, because nobody answered it.",
    }),
  }),
});

const DoneBeforeType = builder.objectRef<DoneBefore>('DoneBefore').implement({
  description: 'Something that the shop finished on the aircraft in the three days before.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'What.' }),
    jasc: t.exposeString('jasc', { description: 'Its JASC code.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was done.' }),
    work: t.exposeString('work', {
      description: 'Which answer it is to the question for the work before, by its id.',
    }),
  }),
});

const listed = (most: number) => ({ required: true, defaultValue: most }) as const;

export const SuggestionType = builder.objectRef<SuggestedCauses>('FindingSuggestion').implement({
  description: 'What a finding may be. It suggests; a person who is entitled decides.',
  fields: (t) => ({
    symptom: t.string({
      description: 'What was noticed, by its id.',
      resolve: ({ symptom }) => symptom.id,
    }),
    symptomWords: t.string({
      description: 'The same in words.',
      resolve: ({ symptom }) => symptom.name,
    }),
    standing: t.field({
      type: StandingEnum,
      description: 'Whether a cause stands out.',
      resolve: ({ suggestion }) => suggestion.standing,
    }),
    says: t.string({
      description: 'The standing in a sentence.',
      resolve: ({ suggestion }) => suggestion.says,
    }),
    restsOn: t.string({
      description: 'What the probabilities rest on.',
      resolve: ({ suggestion }) => suggestion.restsOn,
    }),
    leak: t.string({
      nullable: true,
      description: 'What the size of a fuel leak asks for, whatever its cause.',
      resolve: ({ suggestion }) => suggestion.leak,
    }),
    cautions: t.stringList({
      description: 'Shown with it, always.',
      resolve: ({ suggestion }) => [...suggestion.cautions],
    }),
    seen: t.field({
      type: [SeenAnswerType],
      description: 'What it goes by.',
      resolve: answersOf,
    }),
    doneBefore: t.field({
      type: [DoneBeforeType],
      description: 'What the shop finished on the aircraft in the three days before, newest first.',
      resolve: ({ doneBefore }) => [...doneBefore],
    }),
    causes: t.field({
      type: [CauseType],
      description: 'The likeliest first. All of them add up to 1.',
      args: { first: t.arg.int({ ...listed(5), description: 'How many.' }) },
      resolve: ({ suggestion, modelId }, { first }) =>
        suggestion.causes.slice(0, Math.max(0, first)).map((cause) => ({ ...cause, modelId })),
    }),
    next: t.field({
      type: [CheckType],
      description: 'What would tell most for its minutes, the best first.',
      args: { first: t.arg.int({ ...listed(3), description: 'How many.' }) },
      resolve: ({ suggestion }, { first }) => suggestion.next.slice(0, Math.max(0, first)),
    }),
  }),
});

function answersOf({ symptom, said, known }: SuggestedCauses): SeenAnswer[] {
  const all = { ...known, ...said };
  return symptom.questions.flatMap(({ id, asks, answers }) => {
    const answer = answers.find((one) => one.id === all[id]);
    return answer
      ? [
          {
            question: id,
            asks,
            answer: answer.id,
            words: answer.words,
            fromOrders: said[id] === undefined,
          },
        ]
      : [];
  });
}
