import type { CauseKind, RankedCause, Reason } from '@fairlead/diagnosis';
import { builder } from '../../builder.ts';
import { tasksFor } from './tasks-for.ts';

const CauseKindEnum = builder.enumType('CauseKind', {
  description: 'Whether something has failed.',
  values: {
    fault: { description: 'Something has failed.' },
    normal: { description: 'Normal for this condition: no action.' },
    something_else: { description: 'None of those listed.' },
  } satisfies Record<CauseKind, object>,
});

const SpeaksEnum = builder.enumType('ReasonSpeaks', {
  description: 'What an observation says of a cause.',
  values: {
    for: { description: 'For it.' },
    against: { description: 'Against it.' },
    neither: { description: 'It is about as likely with the other causes.' },
  } satisfies Record<Reason['speaks'], object>,
});

const ReasonType = builder.objectRef<Reason>('CauseReason').implement({
  description: 'What one observation does to one cause.',
  fields: (t) => ({
    question: t.exposeString('question', { description: 'The question, by its id.' }),
    bits: t.exposeFloat('bits', {
      description: 'Log-likelihood ratio against the other causes, bits; above 0 speaks for it.',
    }),
    speaks: t.expose('speaks', { type: SpeaksEnum, description: 'For or against.' }),
    sentence: t.exposeString('sentence', { description: 'The same in a sentence.' }),
    source: t.exposeString('source', {
      nullable: true,
      description: 'Where it is from; null: only what is usual spoke.',
    }),
  }),
});

export const CauseType = builder
  .objectRef<RankedCause & { modelId: string }>('SuggestedCause')
  .implement({
    description: 'What a finding may be. A suggestion: a person who is entitled decides.',
    fields: (t) => ({
      cause: t.exposeString('id', { description: 'The cause, by its id in the tables.' }),
      name: t.exposeString('name', { description: 'What it is.' }),
      kind: t.expose('kind', { type: CauseKindEnum, description: 'Whether something has failed.' }),
      probability: t.exposeFloat('probability', { description: 'How likely it is, 0 to 1.' }),
      why: t.exposeString('why', { description: 'Why it looks like that.' }),
      source: t.exposeString('source', { description: 'Where the cause is from.' }),
      remedy: t.exposeString('remedy', { description: 'What is done about it.' }),
      workTitle: t.string({
        nullable: true,
        description: 'The work that it leads to; null where nothing is wrong.',
        resolve: ({ work }) => work?.title ?? null,
      }),
      workJasc: t.string({
        nullable: true,
        description: 'The JASC code of that work.',
        resolve: ({ work }) => work?.jasc ?? null,
      }),
      tasks: t.prismaField({
        type: ['Task'],
        description: 'Tasks of the shop that may be that work, the likeliest first, at most three.',
        resolve: async (query, { work, modelId }, _, { read }) =>
          work ? tasksFor(read, query, work, modelId) : [],
      }),
      reasons: t.expose('reasons', {
        type: [ReasonType],
        description: 'For and against it, the strongest first.',
      }),
    }),
  });
