import { builder } from '../builder.ts';
import { clientEventIdIs } from './device-inputs.ts';
import { newestJudgement } from './judge-note.ts';
import { MOST_PHOTOS } from './learn-note.ts';

builder.prismaNode('LearnedNote', {
  id: { field: 'id' },
  description:
    'What somebody learned on a task or about a part, for whoever meets it next. Its words never change.',
  fields: (t) => ({
    words: t.exposeString('words', { description: 'What, as they wrote it.' }),
    model: t.relation('model', {
      nullable: true,
      description: 'On which model; null: on every one, or it is about a part.',
    }),
    part: t.relation('part', { nullable: true, description: 'The part that it is about.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was written.' }),
    by: t.relation('by', { description: 'Who wrote it.' }),
    clientEventId: t.exposeString('clientEventId', { description: clientEventIdIs }),
    photos: t.prismaField({
      type: ['Photo'],
      description: 'Pictures to it, in the order given.',
      complexity: { multiplier: MOST_PHOTOS },
      select: (_args, _context, nested) => ({
        photos: { orderBy: { position: 'asc' }, select: { photo: nested() } },
      }),
      resolve: (_query, { photos }) => photos.map(({ photo }) => photo),
    }),
    stillTrue: t.boolean({
      description: 'What was said of it last; true until somebody said otherwise.',
      select: { judgements: newestJudgement },
      resolve: ({ judgements }) => judgements[0]?.stillTrue ?? true,
    }),
    judgedAt: t.field({
      type: 'DateTime',
      nullable: true,
      description: 'When somebody last said whether it holds.',
      select: { judgements: newestJudgement },
      resolve: ({ judgements }) => judgements[0]?.at ?? null,
    }),
    judgedBy: t.prismaField({
      type: 'Person',
      nullable: true,
      description: 'Who that was.',
      select: (_args, _context, nested) => ({
        judgements: { ...newestJudgement, include: { by: nested() } },
      }),
      resolve: (_query, { judgements }) => judgements[0]?.by ?? null,
    }),
  }),
});

const newestFirst = { orderBy: { id: 'desc' } } as const;

builder.prismaObjectFields('WorkItem', (t) => ({
  learned: t.prismaField({
    type: ['LearnedNote'],
    description:
      'What was learned on its task on this model and on every one, what no longer holds included, newest first.',
    select: (_args, _context, nested) => ({
      order: { select: { aircraft: { select: { modelId: true } } } },
      task: { select: { notes: nested() } },
    }),
    resolve: (_query, { task, order }) => newestOf(task?.notes, order.aircraft.modelId),
  }),
}));

builder.prismaObjectFields('QuoteLine', (t) => ({
  learned: t.prismaField({
    type: ['LearnedNote'],
    description: 'What was learned on its task on this model, or about its part, newest first.',
    select: (_args, _context, nested) => ({
      revision: { select: { quote: { select: { aircraft: { select: { modelId: true } } } } } },
      task: { select: { notes: nested() } },
      part: { select: { notes: nested() } },
    }),
    resolve: (_query, { task, part, revision }) =>
      newestOf(task?.notes ?? part?.notes, revision.quote.aircraft.modelId),
  }),
}));

builder.prismaObjectFields('Part', (t) => ({
  learned: t.relation('notes', {
    description: 'What was learned about it, newest first.',
    query: newestFirst,
  }),
}));

/** Keys rise with time. */
const newestOf = <Note extends { id: string; modelId: string | null }>(
  notes: readonly Note[] | undefined,
  modelId: string,
): Note[] =>
  (notes ?? [])
    .filter((note) => note.modelId === null || note.modelId === modelId)
    .sort((one, other) => (one.id < other.id ? 1 : -1));
