import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import { leftInoperative } from '../records/queries.ts';
import { shopToday } from '../today.ts';
import { CountsType } from './counts-schema.ts';
import { directivesOf } from './directives/directives-of.ts';
import { dueListsOf } from './due-list.ts';
import { endedItems } from './ended-items.ts';
import { type FittedPart, fittedParts } from './fitted-parts.ts';
import { type StatusSection, statusSheet } from './status-sheet.ts';

const PartTimeType = builder.objectRef<FittedPart>('PartTime').implement({
  description: 'A part that is fitted, with its own time in service.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'What it is.' }),
    kind: t.exposeString('kind', { description: 'Its kind.' }),
    partNumber: t.exposeString('partNumber', { description: 'Part number.' }),
    serial: t.exposeString('serial', { description: 'Serial number.' }),
    id: t.id({ description: 'The part.', resolve: ({ id }) => globalId('Component', id) }),
    position: t.exposeString('position', { description: 'Where it is fitted.' }),
    parentId: t.id({
      nullable: true,
      description: 'The part that carries it.',
      resolve: ({ parentId }) => parentId && globalId('Component', parentId),
    }),
    fittedAt: t.expose('fittedAt', { type: 'DateTime', description: 'Since when.' }),
    fittedTisHundredths: t.exposeInt('fittedTisHundredths', {
      description: 'Time in service of the aircraft then, hundredths of an hour.',
    }),
    problem: t.exposeString('problem', {
      nullable: true,
      description: 'Why its time cannot be told.',
    }),
    lifeLimitHundredths: t.exposeInt('lifeLimitHundredths', {
      nullable: true,
      description: 'Its life, hundredths of an hour; null: none is entered.',
    }),
    sinceOverhaulHundredths: t.exposeInt('sinceOverhaulHundredths', {
      nullable: true,
      description: 'Since its last overhaul, hundredths of an hour; null: none is known here.',
    }),
    counts: t.field({
      type: CountsType,
      description: 'Its own cycles, landings and starts since new.',
      resolve: ({ counts }) => counts,
    }),
    tisHundredths: t.exposeInt('tisHundredths', {
      nullable: true,
      description:
        'Hundredths of an hour; null where it was fitted before and its time is not known here.',
    }),
  }),
});

const StatusRowType = builder.objectRef<StatusSection['rows'][number]>('StatusRow').implement({
  description: 'One line of a status sheet.',
  fields: (t) => ({
    what: t.exposeString('what', { description: 'What it is about.' }),
    status: t.exposeString('status', { description: 'How it stands.' }),
    last: t.exposeString('last', { description: 'When and how it was last complied with.' }),
    next: t.exposeString('next', { description: 'When it is due.' }),
  }),
});
const StatusSectionType = builder.objectRef<StatusSection>('StatusSection').implement({
  description: 'One item of 14 CFR 91.417(a)(2).',
  fields: (t) => ({
    paragraph: t.exposeString('paragraph', { description: 'Its paragraph.' }),
    title: t.exposeString('title', { description: 'Its name.' }),
    note: t.exposeString('note', { description: 'What is meant by it, or why nothing is here.' }),
    rows: t.field({
      type: [StatusRowType],
      description: 'Its lines.',
      resolve: ({ rows }) => rows,
    }),
  }),
});

builder.prismaObjectField('Aircraft', 'partTimes', (t) =>
  t.field({
    type: [PartTimeType],
    description:
      'What is fitted, with its time: as first recorded, and what the aircraft has flown since.',
    select: { id: true },
    resolve: ({ id }, _, { read }) => fittedParts(read, id),
  }),
);
builder.prismaObjectField('Aircraft', 'statusSheet', (t) =>
  t.field({
    type: [StatusSectionType],
    description: 'How its records stand, item by item of 14 CFR 91.417(a)(2).',
    select: { id: true },
    resolve: async ({ id }, _, context) => {
      const today = await shopToday(context);
      const [list] = await dueListsOf(context.read, id, today);
      if (!list) throw new Error('an aircraft that was read has its list');
      return statusSheet({
        list,
        left: await leftInoperative(context.read, id, today),
        parts: await fittedParts(context.read, id),
        over: await endedItems(context.read, id),
        directives: await directivesOf(context.read, [id]),
        forms: await context.read.duty.findMany({
          where: { kind: 'major_form', order: { aircraftId: id } },
          orderBy: [{ runsFrom: 'desc' }, { id: 'asc' }],
          select: {
            ...{ words: true, runsFrom: true, dueAt: true },
            order: { select: { number: true } },
            done: { select: { at: true, words: true, by: { select: { name: true } } } },
          },
        }),
      });
    },
  }),
);
