import { InspectionKind, Posture, Reach, Sight, TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { literally } from '../literally.ts';

builder.enumType(Sight, {
  name: 'Sight',
  description: 'How the place is seen: directly, by mirror or borescope, or not at all, by feel.',
  values: {
    direct: { description: 'Seen directly.' },
    mirror: { description: 'Seen by mirror or borescope.' },
    feel: { description: 'Not seen: by feel.' },
  },
});
builder.enumType(Posture, {
  name: 'Posture',
  description: 'How one has to stand, kneel or lie.',
  values: {
    upright: { description: 'Standing upright.' },
    bent: { description: 'Bent or kneeling.' },
    lying: { description: 'Lying or overhead.' },
  },
});
builder.enumType(Reach, {
  name: 'Reach',
  description: 'How far the arm has to go in.',
  values: { forearm: { description: 'To the forearm.' }, arm: { description: 'The full arm.' } },
});
builder.enumType(InspectionKind, {
  name: 'InspectionKind',
  description: 'Inspection in the sense of 14 CFR 91.409.',
  values: {
    hundred_hour: { description: '100-hour inspection (14 CFR 91.409(b)).' },
    annual: { description: 'Annual inspection (14 CFR 91.409(a)).' },
  },
});
builder.enumType(TaxCategory, {
  name: 'TaxCategory',
  description: 'What is taxed together.',
  values: {
    labour: { description: 'Labour.' },
    parts: { description: 'Parts.' },
    supplies: { description: 'Shop supplies.' },
  },
});

builder.prismaNode('Access', {
  id: { field: 'id' },
  name: 'AccessConditions',
  description: 'What makes a place hard to work in. Null: not recorded.',
  fields: (t) => ({
    clearanceMm: t.exposeInt('clearanceMm', {
      nullable: true,
      description: 'Room for hand and tool, millimetres.',
    }),
    sight: t.expose('sight', { type: Sight, nullable: true, description: 'How it is seen.' }),
    posture: t.expose('posture', {
      type: Posture,
      nullable: true,
      description: 'How one works there.',
    }),
    reach: t.expose('reach', { type: Reach, nullable: true, description: 'How far in.' }),
    swingDeg: t.exposeInt('swingDeg', {
      nullable: true,
      description: 'Free swing of the tool, degrees.',
    }),
    held: t.exposeBoolean('held', {
      nullable: true,
      description: 'Held against a spring, a cam or its weight while fastening.',
    }),
    lockedFasteners: t.exposeInt('lockedFasteners', {
      nullable: true,
      description: 'Fasteners with lockwire, cotter or tab.',
    }),
  }),
});

/** Access conditions as given; every field may be left out. */
export const AccessInput = builder.inputType('AccessConditionsInput', {
  description: 'What makes a place hard to work in. Leave out what was not recorded.',
  fields: (t) => ({
    clearanceMm: t.int({ description: 'Room for hand and tool, millimetres, 0 to 100,000.' }),
    sight: t.field({ type: Sight, description: 'How it is seen.' }),
    posture: t.field({ type: Posture, description: 'How one works there.' }),
    reach: t.field({ type: Reach, description: 'How far in.' }),
    swingDeg: t.int({ description: 'Free swing of the tool, degrees, 0 to 360.' }),
    held: t.boolean({ description: 'Held against a spring, a cam or its weight while fastening.' }),
    lockedFasteners: t.int({ description: 'Fasteners with lockwire, cotter or tab, 0 to 1,000.' }),
  }),
});

builder.prismaNode('Task', {
  id: { field: 'id' },
  description: 'A piece of work as the shop describes it.',
  fields: (t) => ({
    key: t.exposeString('key', {
      description: 'Short readable name, the one that history files use.',
    }),
    title: t.exposeString('title', { description: 'What is done.' }),
    jasc: t.exposeString('jasc', { description: 'JASC code, four digits.' }),
    standardHours: t.expose('standardHours', {
      type: 'Decimal',
      nullable: true,
      description: 'Standard time, labour-hours.',
    }),
    standardAccess: t.relation('standardAccess', {
      nullable: true,
      description:
        'The conditions that the standard time was stated for; null: as installed on the model.',
    }),
    critical: t.exposeBoolean('critical', {
      description: 'Wants a second, independent inspection.',
    }),
    cautions: t.exposeStringList('cautions', {
      description: 'Hazards, shown before the clock starts.',
    }),
    reference: t.exposeString('reference', { description: 'The data that the work is done by.' }),
  }),
});

builder.prismaNode('Package', {
  id: { field: 'id' },
  description: 'Tasks sold together.',
  fields: (t) => ({
    title: t.exposeString('title', { description: 'What it is sold as.' }),
    inspection: t.expose('inspection', {
      type: InspectionKind,
      nullable: true,
      description: 'Which inspection it is, if one.',
    }),
    modelKind: t.field({
      type: 'String',
      nullable: true,
      description: 'For this kind of aircraft only.',
      resolve: ({ modelKind }) => modelKind,
    }),
    model: t.relation('model', { nullable: true, description: 'For this model only.' }),
    revision: t.exposeInt('revision', { description: 'Revision of the list.' }),
    price: t.expose('priceMinor', {
      type: 'Minor',
      nullable: true,
      description: 'Fixed price, net; null: by time and materials.',
    }),
    madeFrom: t.exposeString('madeFrom', { description: 'The data that the list was made from.' }),
    tasks: t.relation('tasks', {
      description: 'What is done, in order.',
      query: { orderBy: { position: 'asc' } },
    }),
    toldFindings: t.relation('findings', {
      description: 'What the manager told of earlier years, newest first.',
      query: { orderBy: { toldAt: 'desc' } },
    }),
  }),
});

builder.prismaNode('ToldFinding', {
  id: { field: 'id' },
  description: 'What a manager told: how often some work turned up in a package.',
  fields: (t) => ({
    task: t.relation('task', { description: 'The work that corrects it.' }),
    model: t.relation('model', { nullable: true, description: 'On this model; null: on all.' }),
    seen: t.exposeInt('seen', { description: 'Times it was found.' }),
    of: t.exposeInt('of', { description: 'Packages done.' }),
    parts: t.expose('partsMinor', {
      type: 'Minor',
      nullable: true,
      description: 'What its parts come to, net.',
    }),
    note: t.exposeString('note', { description: 'Where that is known from.' }),
    toldAt: t.expose('toldAt', { type: 'DateTime', description: 'When it was told.' }),
    toldBy: t.relation('toldBy', { description: 'Who told it.' }),
  }),
});

builder.prismaObject('PackageTask', {
  description: 'A task in a package.',
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place in the list, from 1.' }),
    task: t.relation('task', { description: 'What is done.' }),
  }),
});

builder.prismaNode('Part', {
  id: { field: 'id' },
  description: 'A part as it is sold.',
  fields: (t) => ({
    number: t.exposeString('number', { description: 'Part number.' }),
    title: t.exposeString('title', { description: 'What it is.' }),
    unit: t.exposeString('unit', { description: 'Unit in which it is sold.' }),
  }),
});

builder.queryFields((t) => ({
  tasks: t.prismaConnection({
    type: 'Task',
    cursor: 'id',
    args: { search: t.arg.string({ description: 'Part of the title, the key or the JASC code.' }) },
    description: "The shop's tasks, by JASC code.",
    resolve: (query, _, { search }, { read }) =>
      read.task.findMany({
        ...query,
        ...(search && {
          where: {
            OR: [
              { title: { contains: literally(search), mode: 'insensitive' } },
              { key: { contains: literally(search), mode: 'insensitive' } },
              { jasc: { startsWith: literally(search) } },
            ],
          },
        }),
        orderBy: [{ jasc: 'asc' }, { id: 'asc' }],
      }),
  }),
  packages: t.prismaField({
    type: ['Package'],
    description: 'What the shop sells as one.',
    resolve: (query, _, __, { read }) =>
      read.package.findMany({ ...query, orderBy: { title: 'asc' } }),
  }),
  parts: t.prismaConnection({
    type: 'Part',
    cursor: 'id',
    args: { search: t.arg.string({ description: 'Part of the number or the title.' }) },
    description: "The shop's parts, by number.",
    resolve: (query, _, { search }, { read }) =>
      read.part.findMany({
        ...query,
        ...(search && {
          where: {
            OR: [
              { title: { contains: literally(search), mode: 'insensitive' } },
              { number: { contains: literally(search), mode: 'insensitive' } },
            ],
          },
        }),
        orderBy: [{ number: 'asc' }, { id: 'asc' }],
      }),
  }),
}));
