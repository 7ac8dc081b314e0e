import { builder } from '../builder.ts';
import { notFound } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { departAircraft } from './depart-aircraft.ts';
import { FloorType } from './floor-types.ts';
import { loadFloor } from './load-floor.ts';
import { moveAircraft } from './move-aircraft.ts';
import { planStay } from './plan-stay.ts';

const PlanStayInput = builder.inputType('PlanStayInput', {
  description: 'An aircraft on a stand, for a time.',
  fields: (t) => ({
    standId: t.id({ required: true, description: 'The stand.' }),
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    orderId: t.id({ description: 'The order that it comes for.' }),
    startsAt: t.field({ type: 'DateTime', required: true, description: 'From when.' }),
    endsAt: t.field({ type: 'DateTime', required: true, description: 'Until when.' }),
  }),
});
const MoveAircraftInput = builder.inputType('MoveAircraftInput', {
  description: 'An aircraft that is put on a stand, now.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    standId: t.id({ required: true, description: 'The stand that it goes to.' }),
  }),
});
const DepartAircraftInput = builder.inputType('DepartAircraftInput', {
  description: 'An aircraft that leaves its stand, now.',
  fields: (t) => ({ aircraftId: t.id({ required: true, description: 'The aircraft.' }) }),
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
    errors: {},
    description:
      'Plans an aircraft on a stand. Refused where it does not fit; a clash with another plan is allowed and shown.',
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
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  moveAircraft: t.prismaField({
    type: 'Stay',
    errors: {},
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
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  departAircraft: t.prismaField({
    type: 'Stay',
    errors: {},
    description:
      'Takes an aircraft off its stand, now. It says where the aircraft is, not that it may be flown.',
    args: { input: t.arg({ type: DepartAircraftInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await departAircraft(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
      });
      return context.read.stay.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
