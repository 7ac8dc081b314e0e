import { FindingClass } from '@fairlead/database';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import { findingClass, findingFacts, findingState, type findingStates } from '../states.ts';
import { shopToday } from '../today.ts';
import { type PhotoPair, photoPairs } from './photo-pairs.ts';
import { photoUrl } from './photo-url.ts';

builder.enumType(FindingClass, {
  name: 'FindingClass',
  description: 'Unairworthy and discrepancy are meant as in 14 CFR 43.11.',
  values: {
    unairworthy: { description: 'The aircraft is not airworthy with it.' },
    discrepancy: { description: 'Something is not as it should be.' },
    observation: { description: 'Worth noting; nothing is wrong yet.' },
  },
});

export const FindingState = builder.enumType('FindingState', {
  description: 'How far a finding has come. Derived from what happened to it and to its quotes.',
  values: {
    noted: { description: 'Somebody found it; nobody qualified has looked.' },
    assessed: { description: 'A qualified person has given its class and what it means.' },
    offered: { description: 'Its correction is with the owner.' },
    agreed: { description: 'The owner said go ahead.' },
    declined: { description: 'The owner said not now.' },
    put_off: { description: 'Left for a later visit.' },
    corrected: { description: 'The correction is done.' },
  } satisfies Record<(typeof findingStates)[number], object>,
});

const { events } = findingFacts;

const PhotoPairType = builder.objectRef<PhotoPair>('PhotoPair').implement({
  description: 'Two pictures of a finding that show the same.',
  fields: (t) => ({
    beforeId: t.id({
      description: 'The one of before the correction.',
      resolve: ({ beforeId }) => globalId('Photo', beforeId),
    }),
    afterId: t.id({
      description: 'The one of after it.',
      resolve: ({ afterId }) => globalId('Photo', afterId),
    }),
  }),
});

builder.prismaNode('Finding', {
  id: { field: 'id' },
  description: 'What was discovered on an aircraft.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number on the order, from 1.' }),
    title: t.exposeString('title', { description: 'What, in a line.' }),
    words: t.exposeString('words', { description: 'What the finder wrote.' }),
    zone: t.exposeString('zone', {
      description: 'Where on the aircraft: a zone of the side view.',
    }),
    state: t.field({
      type: FindingState,
      description: 'How far it has come.',
      select: findingFacts,
      resolve: async (finding, _, context) => findingState(finding, await shopToday(context)),
    }),
    class: t.field({
      type: FindingClass,
      description: "The class a qualified person gave last; the finder's own until then.",
      select: { provisionalClass: true, events },
      resolve: findingClass,
    }),
    provisional: t.boolean({
      description: "Whether the class is still only the finder's.",
      select: { events },
      resolve: (finding) => !finding.events.some((event) => event.class),
    }),
    meaning: t.field({
      type: 'String',
      description: "What it means, in the owner's words; empty until it is assessed.",
      select: { events },
      resolve: (finding) =>
        finding.events.findLast(({ kind }) => kind === 'assessed')?.meaning ?? '',
    }),
    putOffBecause: t.field({
      type: 'String',
      nullable: true,
      description: 'Why it was left for later, where it was.',
      select: { events },
      resolve: (finding) =>
        finding.events.at(-1)?.kind === 'put_off' ? (finding.events.at(-1)?.meaning ?? null) : null,
    }),
    foundAt: t.expose('foundAt', {
      type: 'DateTime',
      description: 'When it was found, by the clock of the device.',
    }),
    foundBy: t.relation('foundBy', { description: 'Who found it.' }),
    item: t.relation('item', {
      nullable: true,
      description: 'The item during which it was found.',
    }),
    order: t.relation('order', { description: 'The job during which it was found.' }),
    corrections: t.relation('corrections', {
      description: 'The items that correct it.',
      query: { orderBy: { position: 'asc' } },
    }),
    photos: t.prismaField({
      type: ['Photo'],
      description: 'Pictures of it, in the order given.',
      select: (_args, _context, nested) => ({
        photos: { orderBy: { position: 'asc' }, select: { photo: nested() } },
      }),
      resolve: (_query, finding) => finding.photos.map(({ photo }) => photo),
    }),
    photoPairs: t.field({
      type: [PhotoPairType],
      description: 'Which of its pictures show the same before and after the correction.',
      select: {
        photos: { orderBy: { position: 'asc' }, select: { photoId: true, beforeId: true } },
      },
      resolve: ({ photos }) => photoPairs(photos),
    }),
    clientEventId: t.exposeString('clientEventId', {
      description: 'The id that its device gave it: what a picture that joins it names.',
    }),
    quotes: t.relation('quotes', {
      description: 'What was offered to correct it, oldest first.',
      query: { orderBy: { number: 'asc' } },
    }),
  }),
});

builder.prismaNode('Photo', {
  id: { field: 'id' },
  description: 'A picture, the right way up and without the place where it was taken.',
  fields: (t) => ({
    url: t.string({
      description: 'Its address on this site.',
      select: { id: true, preview: true },
      resolve: (photo) => photoUrl(photo, 'original'),
    }),
    largeUrl: t.string({
      description: 'Address of the one for a page, 1600 pixels at most.',
      select: { id: true, preview: true },
      resolve: (photo) => photoUrl(photo, 'large'),
    }),
    middleUrl: t.string({
      description: 'Address of the one for a telephone, 800 pixels at most.',
      select: { id: true, preview: true },
      resolve: (photo) => photoUrl(photo, 'middle'),
    }),
    thumbUrl: t.string({
      description: 'Address of the small one, 320 pixels at most.',
      select: { id: true, preview: true },
      resolve: (photo) => photoUrl(photo, 'thumb'),
    }),
    width: t.exposeInt('width', { description: 'Width, pixels.' }),
    height: t.exposeInt('height', { description: 'Height, pixels.' }),
    words: t.exposeString('words', { description: 'What it shows, for those who cannot see it.' }),
  }),
});
