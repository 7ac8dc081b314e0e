import type { Prisma, StayKind } from '@fairlead/database';
import { queryFromInfo } from '@pothos/plugin-prisma';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import {
  comingChanges,
  type FloorChange,
  type FloorConflict,
  floorConflicts,
  floorOccupancy,
} from './floor-plan.ts';
import type { FloorView } from './load-floor.ts';

const StayKindType = builder.enumType('StayKind', {
  description: 'Planned, or as it is or was.',
  values: {
    planned: { description: 'To be; may clash with another plan.' },
    actual: { description: 'As it is or was; never two on one stand.' },
  } satisfies Record<StayKind, object>,
});

const changeKinds = builder.enumType('FloorChangeKind', {
  description: 'What changes on the floor.',
  values: {
    arrival: { description: 'An aircraft comes.' },
    move: { description: 'An aircraft goes to another stand.' },
    departure: { description: 'An aircraft leaves.' },
  },
});
const conflictKinds = builder.enumType('FloorConflictKind', {
  description: 'What cannot be on the floor.',
  values: {
    one_stand_two_aircraft: { description: 'Two aircraft on one stand at the same time.' },
    one_aircraft_two_stays: { description: 'One aircraft in two stays at the same time.' },
    too_tight: { description: "The stand is too small with the shop's clearance." },
  },
});

builder.prismaNode('Hangar', {
  id: { field: 'id' },
  description:
    'The building in plan, millimetres. The origin is its back left corner seen from the door; y runs towards the door.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Its name.' }),
    widthMm: t.exposeInt('widthMm', { description: 'Inside, along the door wall.' }),
    depthMm: t.exposeInt('depthMm', { description: 'Inside, from the back wall to the door.' }),
    doorFromMm: t.exposeInt('doorFromMm', {
      description: 'Where the door opening begins, from the left.',
    }),
    doorWidthMm: t.exposeInt('doorWidthMm', { description: 'Width of the door opening.' }),
    stands: t.relation('stands', {
      description: 'Its marked places.',
      query: { orderBy: { name: 'asc' } },
    }),
  }),
});

builder.prismaNode('Stand', {
  id: { field: 'id' },
  description: 'The place of one aircraft on the floor, millimetres.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'As it is marked.' }),
    xMm: t.exposeInt('xMm', { description: 'Its left edge.' }),
    yMm: t.exposeInt('yMm', { description: 'Its back edge.' }),
    widthMm: t.exposeInt('widthMm', { description: 'Along x.' }),
    depthMm: t.exposeInt('depthMm', { description: 'Along y.' }),
    headingDeg: t.exposeInt('headingDeg', {
      description: 'Where the nose points: 0 is up the drawing, clockwise.',
    }),
    stay: t.prismaField({
      type: 'Stay',
      nullable: true,
      description: 'The aircraft that stands there now.',
      select: (_args, _context, nested) => ({
        stays: nested({ where: { kind: 'actual', endsAt: null }, take: 1 }),
      }),
      resolve: (_query, { stays }) => stays[0] ?? null,
    }),
  }),
});

const StayType = builder.prismaNode('Stay', {
  id: { field: 'id' },
  description: 'An aircraft on a stand, for a time.',
  fields: (t) => ({
    stand: t.relation('stand', { description: 'Where.' }),
    aircraft: t.relation('aircraft', { description: 'Which.' }),
    order: t.relation('order', {
      nullable: true,
      description: 'What it is there for; null: it only stands there.',
    }),
    kind: t.expose('kind', { type: StayKindType, description: 'Planned, or in fact.' }),
    startsAt: t.expose('startsAt', { type: 'DateTime', description: 'From when.' }),
    endsAt: t.expose('endsAt', {
      type: 'DateTime',
      nullable: true,
      description: 'Until when; null while nobody has said.',
    }),
  }),
});

const Change = builder
  .objectRef<FloorChange & { stay: Prisma.StayModel }>('FloorChange')
  .implement({
    description: 'An arrival, a move or a departure.',
    fields: (t) => ({
      at: t.expose('at', { type: 'DateTime', description: 'When it is planned.' }),
      kind: t.expose('kind', { type: changeKinds, description: 'What happens.' }),
      late: t.exposeBoolean('late', {
        description: 'The time has passed and it has not happened.',
      }),
      stay: t.field({
        type: StayType,
        description: 'The stay that begins or ends.',
        resolve: ({ stay }) => stay,
      }),
    }),
  });

const Conflict = builder.objectRef<FloorConflict>('FloorConflict').implement({
  description: 'Something planned on the floor that cannot be.',
  fields: (t) => ({
    kind: t.expose('kind', { type: conflictKinds, description: 'What is wrong.' }),
    sentence: t.exposeString('sentence', { description: 'In one sentence, with the figures.' }),
    from: t.expose('from', { type: 'DateTime', description: 'From when.' }),
    to: t.expose('to', {
      type: 'DateTime',
      nullable: true,
      description: 'Until when; null: no end is known.',
    }),
    stayIds: t.idList({
      description: 'The stays that it is about.',
      resolve: ({ stayIds }) => stayIds.map((id) => globalId('Stay', id)),
    }),
  }),
});

export const FloorType = builder.objectRef<FloorView>('Floor').implement({
  description: "A hangar's floor now, and what is planned for the fourteen days from today on.",
  fields: (t) => ({
    asOf: t.field({
      type: 'DateTime',
      description: 'The moment that "now" is.',
      resolve: ({ times }) => times.now,
    }),
    hangar: t.prismaField({
      type: 'Hangar',
      description: 'The building.',
      resolve: (query, { hangarId }, _, { read }) =>
        read.hangar.findUniqueOrThrow({ ...query, where: { id: hangarId } }),
    }),
    stands: t.prismaField({
      type: ['Stand'],
      description: 'Its places, with what stands there.',
      resolve: (query, { hangarId }, _, { read }) =>
        read.stand.findMany({ ...query, where: { hangarId }, orderBy: { name: 'asc' } }),
    }),
    coming: t.field({
      type: [Change],
      description:
        'Arrivals, moves and departures of the fourteen days, by time; what is late comes first.',
      resolve: async ({ stays, times }, _, context, info) => {
        const changes = comingChanges(stays, times);
        const query = queryFromInfo({ context, info, typeName: 'Stay', path: ['stay'] }) as Pick<
          Prisma.StayFindManyArgs,
          'include'
        >;
        const rows = await context.read.stay.findMany({
          ...query,
          where: { id: { in: changes.map(({ stayId }) => stayId) } },
        });
        const byId = new Map(rows.map((row) => [row.id, row]));
        return changes.flatMap((change) => {
          const stay = byId.get(change.stayId);
          return stay ? [{ ...change, stay }] : [];
        });
      },
    }),
    conflicts: t.field({
      type: [Conflict],
      description: 'What is planned and cannot be.',
      resolve: ({ stays, clearanceMm, times }) => floorConflicts(stays, clearanceMm, times),
    }),
    occupancyToday: t.float({
      description: "Share of the stands' hours of today that are taken, 0 to 1.",
      resolve: ({ stays, left, stands, times }) => floorOccupancy(stays, left, stands, times).today,
    }),
    occupancyFortnight: t.float({
      description: "Share of the stands' hours of the fourteen days that are taken, 0 to 1.",
      resolve: ({ stays, left, stands, times }) =>
        floorOccupancy(stays, left, stands, times).fortnight,
    }),
    clearanceMm: t.exposeInt('clearanceMm', {
      description: 'Room that the shop keeps around a parked aircraft.',
    }),
  }),
});
