import type { Prisma } from '@fairlead/database';
import { builder } from '../builder.ts';
import { shopToday } from '../today.ts';
import { dueListsOf } from './due-list.ts';
import { type PartTime, type StatusSection, statusSheet } from './status-sheet.ts';

const PartTimeType = builder.objectRef<PartTime>('PartTime').implement({
  description: 'A part that is fitted, with its own time in service.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'What it is.' }),
    kind: t.exposeString('kind', { description: 'Its kind.' }),
    partNumber: t.exposeString('partNumber', { description: 'Part number.' }),
    serial: t.exposeString('serial', { description: 'Serial number.' }),
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

/** What is fitted with its time: as first recorded, and what the aircraft has flown since. */
const partFacts = {
  id: true,
  readings: {
    orderBy: { readAt: 'desc' },
    take: 1,
    select: { tisHundredths: true },
  },
  fittings: {
    where: { removedAt: null },
    orderBy: { position: 'asc' },
    select: {
      aircraftTisHundredths: true,
      component: {
        select: {
          ...{ title: true, kind: true, partNumber: true, serial: true, tisHundredths: true },
          fittings: { select: { id: true } },
        },
      },
    },
  },
} satisfies Prisma.AircraftSelect;

function partTimes({
  readings: [reading],
  fittings,
}: Prisma.AircraftGetPayload<{ select: typeof partFacts }>): PartTime[] {
  return fittings.map(({ aircraftTisHundredths, component: { fittings: all, ...part } }) => ({
    ...part,
    tisHundredths:
      all.length === 1
        ? part.tisHundredths +
          Math.max(0, (reading?.tisHundredths ?? aircraftTisHundredths) - aircraftTisHundredths)
        : null,
  }));
}

builder.prismaObjectField('Aircraft', 'partTimes', (t) =>
  t.field({
    type: [PartTimeType],
    description:
      'What is fitted, with its time: as first recorded, and what the aircraft has flown since.',
    select: { id: true },
    resolve: async ({ id }, _, { read }) =>
      partTimes(await read.aircraft.findUniqueOrThrow({ where: { id }, select: partFacts })),
  }),
);
builder.prismaObjectField('Aircraft', 'statusSheet', (t) =>
  t.field({
    type: [StatusSectionType],
    description: 'How its records stand, item by item of 14 CFR 91.417(a)(2).',
    select: { id: true },
    resolve: async ({ id }, _, context) => {
      const aircraft = await context.read.aircraft.findUniqueOrThrow({
        where: { id },
        select: partFacts,
      });
      const [list] = await dueListsOf(context.read, id, await shopToday(context));
      if (!list) throw new Error('an aircraft that was read has its list');
      return statusSheet(list, partTimes(aircraft));
    },
  }),
);
