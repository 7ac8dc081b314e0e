import { AircraftKind, Capacity, Meter } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addAircraft } from './add-aircraft.ts';
import { addModel } from './add-model.ts';
import { endStanding, nameContact } from './name-contact.ts';

const AddModelInput = builder.inputType('AddModelInput', {
  description:
    'A type of aircraft that the shop has not had yet; sizes in millimetres, 500 to 60,000.',
  fields: (t) => ({
    maker: t.string({ required: true, description: 'Who makes it, 2 to 80 characters.' }),
    name: t.string({ required: true, description: 'What it is called, 1 to 80 characters.' }),
    kind: t.field({ type: AircraftKind, required: true, description: 'Its kind.' }),
    lengthMm: t.int({ required: true, description: 'Length of the airframe.' }),
    spanMm: t.int({ required: true, description: 'Wing span, or diameter of the main rotor.' }),
    heightMm: t.int({ required: true, description: 'Height.' }),
    parkedLengthMm: t.int({ required: true, description: 'Length as it is parked.' }),
    parkedWidthMm: t.int({
      required: true,
      description: 'Width as it is parked: with blades fore and aft, where it has blades.',
    }),
  }),
});

const AddAircraftInput = builder.inputType('AddAircraftInput', {
  description: 'An aircraft that the shop has not had yet.',
  fields: (t) => ({
    modelId: t.id({ required: true, description: 'Its type.' }),
    registration: t.string({ required: true, description: 'As it stands on the aircraft.' }),
    serial: t.string({ required: true, description: 'Serial number, 1 to 60 characters.' }),
    year: t.int({ description: 'Year of manufacture, where it is known.' }),
    meter: t.field({ type: Meter, required: true, description: 'Which meter was read.' }),
    readingHundredths: t.int({
      required: true,
      description: 'What it shows, hundredths of an hour.',
    }),
    tisHundredths: t.int({
      required: true,
      description: 'Time in service as its records say, hundredths of an hour.',
    }),
  }),
});

const EndStandingInput = builder.inputType('EndStandingInput', {
  description: 'Who is no longer what to an aircraft.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'Which aircraft.' }),
    contactId: t.id({ required: true, description: 'Who.' }),
    capacity: t.field({ type: Capacity, required: true, description: 'What they were to it.' }),
  }),
});

const NameContactInput = builder.inputType('NameContactInput', {
  description: 'What somebody is to an aircraft.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'Which aircraft.' }),
    contactId: t.id({ required: true, description: 'Who.' }),
    capacity: t.field({ type: Capacity, required: true, description: 'What they are to it.' }),
    mayAuthorise: t.field({
      type: 'Minor',
      description: 'How far their yes goes, net; 0: not at all; left out: no limit was given.',
    }),
  }),
});

builder.mutationFields((t) => ({
  addModel: t.prismaField({
    type: 'AircraftModel',
    errors: {},
    description: 'Adds a type of aircraft. For the front desk and the manager.',
    args: { input: t.arg({ type: AddModelInput, required: true, description: 'What it is.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addModel(context, input);
      return context.read.aircraftModel.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addAircraft: t.prismaField({
    type: 'Aircraft',
    errors: {},
    description:
      'Takes an aircraft in, with the record books of its kind and its time in service. For the front desk and the manager.',
    args: { input: t.arg({ type: AddAircraftInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addAircraft(context, {
        ...input,
        modelId: keyOf('AircraftModel', input.modelId, 'modelId'),
        year: input.year ?? null,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  nameContact: t.prismaField({
    type: 'Aircraft',
    errors: {},
    description:
      'Says what somebody is to an aircraft, and how far their yes goes. For the front desk and the manager.',
    args: { input: t.arg({ type: NameContactInput, required: true, description: 'Who.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await nameContact(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        capacity: input.capacity,
        mayAuthorise: input.mayAuthorise ?? null,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  endStanding: t.prismaField({
    type: 'Aircraft',
    errors: {},
    description:
      'Ends what somebody is to an aircraft, with today; what they agreed to stays agreed. For the front desk and the manager.',
    args: { input: t.arg({ type: EndStandingInput, required: true, description: 'Who.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await endStanding(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        capacity: input.capacity,
      });
      return context.read.aircraft.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
