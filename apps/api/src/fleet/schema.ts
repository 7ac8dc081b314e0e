import { AircraftKind, ComponentKind, Meter, RecordBookKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import './sale-schema.ts';
import { counted } from '../counted.ts';

builder.enumType(AircraftKind, {
  name: 'AircraftKind',
  description: 'Kind of aircraft, as its silhouette is drawn.',
  values: {
    helicopter_two_seat: { description: 'Two-seat helicopter.' },
    helicopter_four_seat: { description: 'Helicopter with three or four seats.' },
    airplane_single: { description: 'Airplane with one engine.' },
    airplane_twin: { description: 'Airplane with two engines.' },
  },
});
builder.enumType(RecordBookKind, {
  name: 'RecordBookKind',
  description: 'Which of the record books.',
  values: {
    airframe: { description: 'Airframe.' },
    engine: { description: 'An engine.' },
    propeller: { description: 'A propeller.' },
    rotor: { description: 'Rotors and their drive.' },
  },
});
builder.enumType(ComponentKind, {
  name: 'ComponentKind',
  description: 'Kind of serialised component.',
  values: {
    engine: { description: 'Engine.' },
    propeller: { description: 'Propeller.' },
    rotor: { description: 'Rotor or rotor blade.' },
    gearbox: { description: 'Gearbox.' },
    accessory: { description: 'Accessory.' },
  },
});
builder.enumType(Meter, {
  name: 'Meter',
  description: 'A meter that is read.',
  values: {
    tachometer: { description: 'Tachometer hours.' },
    engine_on: { description: 'Hours with the engine running.' },
    airborne: { description: 'Hours from leaving the surface to touching down.' },
  },
});

builder.prismaNode('AircraftModel', {
  id: { field: 'id' },
  description: 'A type of aircraft, with its dimensions in millimetres.',
  fields: (t) => ({
    maker: t.exposeString('maker', { description: 'Who makes it.' }),
    name: t.exposeString('name', { description: 'Its name.' }),
    kind: t.expose('kind', { type: AircraftKind, description: 'Its kind.' }),
    lengthMm: t.exposeInt('lengthMm', { description: 'Length, blades apart.' }),
    spanMm: t.exposeInt('spanMm', { description: 'Wing span, or diameter of the main rotor.' }),
    heightMm: t.exposeInt('heightMm', { description: 'Height.' }),
    parkedLengthMm: t.exposeInt('parkedLengthMm', {
      description: 'Length as parked, blades fore and aft where it has blades.',
    }),
    parkedWidthMm: t.exposeInt('parkedWidthMm', { description: 'Width as parked.' }),
  }),
});

builder.prismaNode('RecordBook', {
  id: { field: 'id' },
  description: 'One of the record books that go with the aircraft (14 CFR 91.417).',
  fields: (t) => ({
    kind: t.expose('kind', { type: RecordBookKind, description: 'Which.' }),
    title: t.exposeString('title', { description: 'As it is written on the cover.' }),
  }),
});

builder.prismaNode('Component', {
  id: { field: 'id' },
  description: 'A serialised item with times of its own.',
  fields: (t) => ({
    kind: t.expose('kind', { type: ComponentKind, description: 'Its kind.' }),
    title: t.exposeString('title', { description: 'What it is.' }),
    partNumber: t.exposeString('partNumber', { description: 'Part number.' }),
    serial: t.exposeString('serial', { description: 'Serial number.' }),
  }),
});

builder.prismaNode('MeterReading', {
  id: { field: 'id' },
  description: 'A reading, and the time in service derived from it. Hundredths of an hour.',
  fields: (t) => ({
    meter: t.expose('meter', { type: Meter, description: 'Which meter.' }),
    readingHundredths: t.exposeInt('readingHundredths', {
      description: 'What it showed, hundredths of an hour.',
    }),
    tisHundredths: t.exposeInt('tisHundredths', {
      description: 'Time in service then, hundredths of an hour.',
    }),
    readAt: t.expose('readAt', { type: 'DateTime', description: 'When it was read.' }),
  }),
});

builder.prismaNode('Aircraft', {
  id: { field: 'id' },
  description: 'One aircraft.',
  fields: (t) => ({
    registration: t.exposeString('registration', { description: 'Its registration.' }),
    serial: t.exposeString('serial', { description: 'Serial number.' }),
    year: t.exposeInt('year', { nullable: true, description: 'Year of manufacture.' }),
    model: t.relation('model', { description: 'Its type.' }),
    contacts: t.relation('contacts', {
      description: 'Who owns, operates and pays for it.',
      query: { where: { until: null }, orderBy: { capacity: 'asc' } },
    }),
    books: t.relation('books', {
      description: 'Its record books.',
      query: { orderBy: { kind: 'asc' } },
    }),
    readings: t.relation('readings', {
      description: 'The last readings, newest first.',
      args: { first: t.arg.int({ defaultValue: 5, description: 'How many, at most 100.' }) },
      query: ({ first }) => ({
        orderBy: { readAt: 'desc' as const },
        take: Math.min(Math.max(first ?? 5, 0), 100),
      }),
    }),
    components: t.prismaField({
      type: ['Component'],
      description: 'What is fitted now.',
      select: { fittings: { where: { removedAt: null }, select: { componentId: true } } },
      resolve: (query, { fittings }, _, { read }) =>
        read.component.findMany({
          ...query,
          where: { id: { in: fittings.map(({ componentId }) => componentId) } },
          orderBy: { title: 'asc' },
        }),
    }),
  }),
});

builder.queryFields((t) => ({
  aircraft: t.prismaConnection(
    {
      type: 'Aircraft',
      cursor: 'id',
      totalCount: (_, __, { read }) => read.aircraft.count(),
      description: 'The aircraft that the shop knows, by registration.',
      resolve: (query, _, __, { read }) =>
        read.aircraft.findMany({ ...query, orderBy: [{ registration: 'asc' }, { id: 'asc' }] }),
    },
    counted,
  ),
  models: t.prismaField({
    type: ['AircraftModel'],
    description: 'The models of aircraft that the shop knows, by maker and name.',
    resolve: (query, _, __, { read }) =>
      read.aircraftModel.findMany({ ...query, orderBy: [{ maker: 'asc' }, { name: 'asc' }] }),
  }),
}));
