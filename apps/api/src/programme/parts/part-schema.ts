import { builder } from '../../builder.ts';
import { CountsType } from '../counts-schema.ts';
import { type PartTime, timesOf } from '../fitted-parts.ts';
import { type PartStay, staysOf, withReading } from './stays-of.ts';

const StayType = builder.objectRef<PartStay>('PartStay').implement({
  description: 'Where a part was, from when to when, and its own time at both ends.',
  fields: (t) => ({
    aircraft: t.string({ description: 'The aircraft.', resolve: (stay) => stay.registration }),
    position: t.exposeString('position', { description: 'Where on it.' }),
    carriedBy: t.exposeString('carriedBy', {
      nullable: true,
      description: 'The part that carried it.',
    }),
    fittedAt: t.expose('fittedAt', { type: 'DateTime', description: 'When it was fitted.' }),
    fittedBy: t.exposeString('fittedBy', { nullable: true, description: 'By whom.' }),
    aircraftAtFitting: t.exposeInt('aircraftAtFitting', {
      description: 'Time in service of the aircraft then, hundredths of an hour.',
    }),
    ownAtFitting: t.exposeInt('ownAtFitting', {
      nullable: true,
      description: 'The part’s own time then, hundredths of an hour.',
    }),
    removedAt: t.expose('removedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it came off; null: it is there.',
    }),
    removedBy: t.exposeString('removedBy', { nullable: true, description: 'By whom.' }),
    aircraftAtRemoval: t.exposeInt('aircraftAtRemoval', {
      nullable: true,
      description: 'Time in service of the aircraft at removal, hundredths of an hour.',
    }),
    ownAtRemoval: t.exposeInt('ownAtRemoval', {
      nullable: true,
      description: 'The part’s own time at removal, hundredths of an hour.',
    }),
    countedThere: t.field({
      type: CountsType,
      description: 'What it counted there, once it is off.',
      resolve: (stay) => stay.countedThere,
    }),
    removalWords: t.exposeString('removalWords', { description: 'Why it came off.' }),
  }),
});

const TimesType = builder.objectRef<PartTime>('PartTimes').implement({
  description: 'A part’s own times, hundredths of an hour.',
  fields: (t) => ({
    tisHundredths: t.exposeInt('tisHundredths', {
      nullable: true,
      description: 'Since new; null where it cannot be told.',
    }),
    problem: t.exposeString('problem', {
      nullable: true,
      description: 'Why it cannot be told.',
    }),
    sinceOverhaulHundredths: t.exposeInt('sinceOverhaulHundredths', {
      nullable: true,
      description: 'Since its last overhaul; null: none is known here.',
    }),
    counts: t.field({
      type: CountsType,
      description: 'Its own cycles, landings and starts since new.',
      resolve: ({ counts }) => counts,
    }),
    lifeLimitHundredths: t.exposeInt('lifeLimitHundredths', {
      nullable: true,
      description: 'Its life; null: none is entered.',
    }),
  }),
});

builder.prismaObjectFields('Component', (t) => ({
  times: t.field({
    type: TimesType,
    description: 'Its own times, wherever it was: they go with it.',
    select: withReading,
    resolve: (part) => {
      const on = part.fittings.find(({ removedAt }) => removedAt === null);
      return timesOf(part, on?.aircraft.readings ?? []);
    },
  }),
  stays: t.field({
    type: [StayType],
    description: 'Where it was, newest first.',
    select: withReading,
    resolve: staysOf,
  }),
  aircraft: t.prismaField({
    type: 'Aircraft',
    nullable: true,
    description: 'The aircraft that it is fitted to; null: it lies on the shelf.',
    select: { fittings: { where: { removedAt: null }, select: { aircraftId: true } } },
    resolve: (query, { fittings: [on] }, _, { read }) =>
      on ? read.aircraft.findUnique({ ...query, where: { id: on.aircraftId } }) : null,
  }),
}));

builder.queryFields((t) => ({
  components: t.prismaField({
    type: ['Component'],
    description: 'The serialised parts that the shop knows: fitted, or on the shelf.',
    resolve: (query, _, __, { read }) =>
      read.component.findMany({
        ...query,
        orderBy: [{ title: 'asc' }, { partNumber: 'asc' }, { serial: 'asc' }],
      }),
  }),
}));
