import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { atWords, clientEventIdWords } from './device-inputs.ts';
import { judgeNote } from './judge-note.ts';
import { learnNote } from './learn-note.ts';

const LearnNoteInput = builder.inputType('LearnNoteInput', {
  description: 'What somebody learned, of a task or of a part.',
  fields: (t) => ({
    itemId: t.id({ description: 'During which item; its task is meant, unless a part is given.' }),
    partId: t.id({ description: 'About which part.' }),
    everyModel: t.boolean({
      description: 'Whether it holds on every model; left out: on the model of the aircraft.',
    }),
    words: t.string({ required: true, description: 'What, 3 to 500 characters.' }),
    photoIds: t.idList({ description: 'Pictures sent before, at most 4.' }),
    at: t.field({ type: 'DateTime', description: atWords }),
    clientEventId: t.string({
      required: true,
      description: clientEventIdWords,
    }),
  }),
});
const JudgeNoteInput = builder.inputType('JudgeNoteInput', {
  description: 'Whether a note holds.',
  fields: (t) => ({
    noteId: t.id({ required: true, description: 'Which.' }),
    stillTrue: t.boolean({ required: true, description: 'Whether it still does.' }),
    at: t.field({ type: 'DateTime', description: atWords }),
    clientEventId: t.string({ description: clientEventIdWords }),
  }),
});

builder.mutationFields((t) => ({
  learnNote: t.prismaField({
    type: 'LearnedNote',
    errors: {},
    description: 'Keeps what somebody learned, for whoever does it next.',
    args: {
      input: t.arg({ type: LearnNoteInput, required: true, description: 'What was learned.' }),
    },
    resolve: async (query, _root, { input }, context) => {
      const id = await learnNote(context, {
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        partId: input.partId ? keyOf('Part', input.partId, 'partId') : null,
        everyModel: input.everyModel ?? false,
        words: input.words,
        photoIds: (input.photoIds ?? []).map((each) => keyOf('Photo', each, 'photoIds')),
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.learnedNote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  judgeNote: t.prismaField({
    type: 'LearnedNote',
    errors: {},
    description: 'Says that a note still holds, or no longer does.',
    args: {
      input: t.arg({ type: JudgeNoteInput, required: true, description: 'Which, and whether.' }),
    },
    resolve: async (query, _root, { input }, context) => {
      const noteId = keyOf('LearnedNote', input.noteId, 'noteId');
      const id = await judgeNote(context, {
        noteId,
        stillTrue: input.stillTrue,
        at: input.at ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.learnedNote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
