import { builder } from '../builder.ts';
import { notFound } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { departAircraft } from './depart-aircraft.ts';
import { FloorType } from './floor-types.ts';
import './floor-version-types.ts';
import { MovedMeanwhile } from './floor-version.ts';
import { loadFloor } from './load-floor.ts';
import { moveAircraft } from './move-aircraft.ts';
import { planDeparture } from './plan-departure.ts';
import { planStay } from './plan-stay.ts';
import './promise/expectation-types.ts';
import './promise/promise-types.ts';
import './promise/promises-kept.ts';
import { dropPlan, replanStay } from './replan-stay.ts';

const seenVersion = {
  description:
    "The aircraft's floorVersion as it was seen. Where it has changed since, the answer is MovedMeanwhile; left out: not asked.",
};
const errors = { types: [MovedMeanwhile] };

const PlanStayInput = builder.inputType('PlanStayInput', {
  description: 'An aircraft on a stand, for a time.',
  fields: (t) => ({
    standId: t.id({ required: true, description: 'The stand.' }),
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    orderId: t.id({ description: 'The order that it comes for.' }),
    startsAt: t.field({ type: 'DateTime', required: true, description: 'From when.' }),
    endsAt: t.field({ type: 'DateTime', required: true, description: 'Until when.' }),
    seenVersion: t.string(seenVersion),
  }),
});
const ReplanStayInput = builder.inputType('ReplanStayInput', {
  description: 'A plan, on another stand or on other days.',
  fields: (t) => ({
    stayId: t.id({ required: true, description: 'The planned stay.' }),
    standId: t.id({ required: true, description: 'The stand.' }),
    startsAt: t.field({ type: 'DateTime', required: true, description: 'From when.' }),
    endsAt: t.field({ type: 'DateTime', required: true, description: 'Until when.' }),
    seenVersion: t.string(seenVersion),
  }),
});
const DropPlanInput = builder.inputType('DropPlanInput', {
  description: 'A plan that will not be.',
  fields: (t) => ({
    stayId: t.id({ required: true, description: 'The planned stay.' }),
    seenVersion: t.string(seenVersion),
  }),
});
const PlanDepartureInput = builder.inputType('PlanDepartureInput', {
  description: 'When an aircraft is to leave the stand that it is on.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    at: t.field({ type: 'DateTime', required: true, description: 'When it leaves.' }),
    seenVersion: t.string(seenVersion),
  }),
});
const MoveAircraftInput = builder.inputType('MoveAircraftInput', {
  description: 'An aircraft that is put on a stand, now.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    standId: t.id({ required: true, description: 'The stand that it goes to.' }),
    planId: t.id({
      description:
        'The planned stay that this carries out, on whichever stand it was planned. Left out: its own for that stand, where it begins within a day.',
    }),
    seenVersion: t.string(seenVersion),
  }),
});
const DepartAircraftInput = builder.inputType('DepartAircraftInput', {
  description: 'An aircraft that leaves its stand, now.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    seenVersion: t.string(seenVersion),
  }),
});

builder.queryFields((t) => ({
  floor: t.field({
    type: FloorType,
    errors: {},
    description: 'The hangar as it stands, and the fourteen days ahead.',
    args: { hangarId: t.arg.id({ description: 'Which hangar; left out: the first by name.' }) },
    resolve: async (_, { hangarId }, context) => {
      const floor = await loadFloor(
        context,
        hangarId ? keyOf('Hangar', hangarId, 'hangarId') : null,
      );
      if (!floor) throw notFound('hangar');
      return floor;
    },
  }),
}));

builder.mutationFields((t) => ({
  planStay: t.prismaField({
    type: 'Stay',
    errors,
    description:
      'Plans an aircraft on a stand. Refused where it does not fit; a clash with another plan is allowed and shown. One that will still be on another stand then is planned to leave that one.',
    args: {
      input: t.arg({ type: PlanStayInput, required: true, description: 'Which, where and when.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await planStay(context, {
        standId: keyOf('Stand', input.standId, 'standId'),
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        orderId: input.orderId ? keyOf('WorkOrder', input.orderId, 'orderId') : null,
        startsAt: input.startsAt,
        endsAt: input.endsAt,
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  moveAircraft: t.prismaField({
    type: 'Stay',
    errors,
    description: 'Puts an aircraft on a stand, now.',
    args: {
      input: t.arg({
        type: MoveAircraftInput,
        required: true,
        description: 'Which, and where to.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await moveAircraft(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        standId: keyOf('Stand', input.standId, 'standId'),
        planId: input.planId ? keyOf('Stay', input.planId, 'planId') : null,
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  departAircraft: t.prismaField({
    type: 'Stay',
    errors,
    description:
      'Takes an aircraft off its stand, now. It says where the aircraft is, not that it may be flown.',
    args: { input: t.arg({ type: DepartAircraftInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await departAircraft(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  planDeparture: t.prismaField({
    type: 'Stay',
    errors,
    description: 'Plans when an aircraft leaves the stand that it is on.',
    args: {
      input: t.arg({ type: PlanDepartureInput, required: true, description: 'Which, and when.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await planDeparture(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        at: input.at,
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  replanStay: t.prismaField({
    type: 'Stay',
    errors,
    description: 'Puts a plan on another stand, or on other days. Refused where it does not fit.',
    args: {
      input: t.arg({
        type: ReplanStayInput,
        required: true,
        description: 'Which plan, where and when.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await replanStay(context, {
        stayId: keyOf('Stay', input.stayId, 'stayId'),
        standId: keyOf('Stand', input.standId, 'standId'),
        startsAt: input.startsAt,
        endsAt: input.endsAt,
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  dropPlan: t.prismaField({
    type: 'Aircraft',
    errors,
    description: 'Takes a plan off the floor: the aircraft does not come.',
    args: { input: t.arg({ type: DropPlanInput, required: true, description: 'Which plan.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await dropPlan(context, {
        stayId: keyOf('Stay', input.stayId, 'stayId'),
        seenVersion: input.seenVersion ?? null,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
