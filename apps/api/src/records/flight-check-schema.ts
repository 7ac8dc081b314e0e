import { FlightCheckKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { noteFlightCheck } from './note-flight-check.ts';

builder.enumType(FlightCheckKind, {
  name: 'FlightCheckKind',
  description: 'What is said of the flight that 14 CFR 91.407(b) asks for after some work.',
  values: {
    asked: { description: 'The aircraft is to be flown before it carries anybody but its crew.' },
    flown: { description: 'It was flown and logged.' },
    ground_tests: {
      description: 'Ground tests or inspections show that it need not be flown (91.407(c)).',
    },
    withdrawn: { description: 'It was asked for in error.' },
  },
});

builder.prismaNode('FlightCheck', {
  id: { field: 'id' },
  description: 'Something said of that flight. Never changed; the newest of an order holds.',
  fields: (t) => ({
    kind: t.expose('kind', { type: FlightCheckKind, description: 'What.' }),
    words: t.exposeString('words', { description: 'Why, or what it showed.' }),
    pilotName: t.exposeString('pilotName', { nullable: true, description: 'Who flew it.' }),
    pilotCertificate: t.exposeString('pilotCertificate', {
      nullable: true,
      description: 'Their certificate and its number.',
    }),
    flownOn: t.expose('flownOn', { type: 'Date', nullable: true, description: 'On which day.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was noted.' }),
    by: t.relation('by', { description: 'Who noted it.' }),
  }),
});

builder.prismaObjectField('WorkOrder', 'flightChecks', (t) =>
  t.relation('flightChecks', {
    description: 'What was said of a flight before it carries anybody, newest first.',
    query: { orderBy: [{ at: 'desc' }, { id: 'desc' }] },
  }),
);

const NoteFlightCheckInput = builder.inputType('NoteFlightCheckInput', {
  description: 'What is said of that flight.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'After which work.' }),
    kind: t.field({ type: FlightCheckKind, required: true, description: 'What.' }),
    words: t.string({
      required: true,
      description: 'Why it is asked for, or what it showed, 3 to 500 characters.',
    }),
    pilotName: t.string({ description: 'Of a flight: who flew it, 2 to 120 characters.' }),
    pilotCertificate: t.string({
      description: 'Of a flight: their certificate and its number, 3 to 120 characters.',
    }),
    flownOn: t.field({ type: 'Date', description: 'Of a flight: on which day, not after today.' }),
  }),
});

builder.mutationField('noteFlightCheck', (t) =>
  t.prismaField({
    type: 'WorkOrder',
    errors: {},
    description:
      'Notes a flight that is asked for after work, or its answer. A flight that was made by the desk too; the rest for inspector and manager.',
    args: { input: t.arg({ type: NoteFlightCheckInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await noteFlightCheck(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        kind: input.kind,
        words: input.words,
        pilotName: input.pilotName ?? null,
        pilotCertificate: input.pilotCertificate ?? null,
        flownOn: input.flownOn ?? null,
      });
      return context.read.workOrder.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
);
