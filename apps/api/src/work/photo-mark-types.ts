import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { atWords, clientEventIdWords } from './device-inputs.ts';
import { markPhoto } from './mark-photo.ts';
import { markingsSelect, type markKinds, marksOf, type PhotoMark } from './photo-marks.ts';

const MarkKind = builder.enumType('MarkKind', {
  description: 'What a mark over a photo is.',
  values: {
    arrow: { description: 'An arrow to a place.' },
    ring: { description: 'A ring around a place.' },
    note: { description: 'Words at a place.' },
  } satisfies Record<(typeof markKinds)[number], object>,
});

const PhotoMarkRef = builder.objectRef<PhotoMark>('PhotoMark').implement({
  description:
    'A mark over a photo. Places are thousandths of its width and height, from the upper left.',
  fields: (t) => ({
    kind: t.expose('kind', { type: MarkKind, description: 'What.' }),
    x: t.exposeInt('x', { description: 'An arrow’s point, a ring’s middle, where a note begins.' }),
    y: t.exposeInt('y', { description: 'The same, downwards.' }),
    toX: t.exposeInt('toX', { description: 'An arrow’s tail, a place on a ring.' }),
    toY: t.exposeInt('toY', { description: 'The same, downwards.' }),
    words: t.exposeString('words', { description: 'A note’s words; else empty.' }),
  }),
});

builder.prismaObjectFields('Photo', (t) => ({
  marks: t.field({
    type: [PhotoMarkRef],
    description: 'What was last marked over it. The photo itself is as it was taken.',
    // All of them are one value of one row.
    complexity: { multiplier: 1 },
    select: { markings: markingsSelect },
    resolve: ({ markings }) => marksOf(markings),
  }),
}));

const PhotoMarkInput = builder.inputType('PhotoMarkInput', {
  description: 'A mark over a photo, places in thousandths of its width and height.',
  fields: (t) => ({
    kind: t.field({ type: MarkKind, required: true, description: 'What.' }),
    x: t.int({ required: true, description: '0 to 1000.' }),
    y: t.int({ required: true, description: '0 to 1000.' }),
    toX: t.int({ required: true, description: '0 to 1000.' }),
    toY: t.int({ required: true, description: '0 to 1000.' }),
    words: t.string({ required: true, description: 'A note’s words, at most 60 characters.' }),
  }),
});
const MarkPhotoInput = builder.inputType('MarkPhotoInput', {
  description: 'What is marked over a photo.',
  fields: (t) => ({
    photoId: t.id({ required: true, description: 'Over which.' }),
    marks: t.field({
      type: [PhotoMarkInput],
      required: true,
      description: 'All of them, at most 12, in place of those before; none takes them off.',
    }),
    at: t.field({ type: 'DateTime', description: atWords }),
    clientEventId: t.string({ description: clientEventIdWords }),
  }),
});

builder.mutationField('markPhoto', (t) =>
  t.prismaField({
    type: 'Photo',
    errors: {},
    description: 'Puts arrows, rings and words over a photo. The photo itself is never touched.',
    args: {
      input: t.arg({ type: MarkPhotoInput, required: true, description: 'Which, and what.' }),
    },
    resolve: async (query, _root, { input }, context) => {
      const photoId = keyOf('Photo', input.photoId, 'photoId');
      const id = await markPhoto(context, {
        photoId,
        marks: input.marks,
        at: input.at ?? null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.photo.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
