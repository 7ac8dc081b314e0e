import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { noteExpected } from './note-expected.ts';

builder.prismaNode('Expectation', {
  id: { field: 'id' },
  description:
    'On which day something is expected, as somebody said. Never changed: the newest word on a thing holds.',
  fields: (t) => ({
    what: t.exposeString('what', { description: 'What is expected.' }),
    expectedOn: t.expose('expectedOn', {
      type: 'Date',
      nullable: true,
      description: 'On which day; null: nobody can say any more.',
    }),
    saidBy: t.exposeString('saidBy', {
      description: 'Who said so: supplier, owner, or somebody of the shop.',
    }),
    notedAt: t.expose('notedAt', { type: 'DateTime', description: 'When it was noted.' }),
    notedBy: t.relation('notedBy', { description: 'Who noted it.' }),
    item: t.relation('item', { nullable: true, description: 'The work that waits for it.' }),
    part: t.relation('part', {
      nullable: true,
      description: 'The part, where it is one of the catalogue.',
    }),
  }),
});

builder.prismaObjectField('WorkItem', 'expectations', (t) =>
  t.relation('expectations', {
    description: 'When what it waits for is expected, newest word first.',
    query: { orderBy: [{ notedAt: 'desc' }, { id: 'desc' }] },
  }),
);

const NoteExpectedInput = builder.inputType('NoteExpectedInput', {
  description:
    'On which day something is expected that work waits for. An item, or a part, or both.',
  fields: (t) => ({
    itemId: t.id({ description: 'The item that waits. Left out: wherever the part is wanted.' }),
    partId: t.id({ description: 'The part, where it is one of the catalogue.' }),
    what: t.string({
      description: "What is expected, at most 120 characters. Left out: the part's title.",
    }),
    expectedOn: t.field({
      type: 'Date',
      description: 'The day, from today to two years on. Left out: nobody can say any more.',
    }),
    saidBy: t.string({ required: true, description: 'Who said so, 1 to 120 characters.' }),
  }),
});

builder.mutationFields((t) => ({
  noteExpected: t.prismaField({
    type: 'Expectation',
    errors: {},
    description: 'Notes when something is expected. For everybody of the shop.',
    args: {
      input: t.arg({
        type: NoteExpectedInput,
        required: true,
        description: 'What, when, and who said so.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await noteExpected(context, {
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        partId: input.partId ? keyOf('Part', input.partId, 'partId') : null,
        what: input.what ?? null,
        expectedOn: input.expectedOn ?? null,
        saidBy: input.saidBy,
      });
      return context.read.expectation.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
