import { type FuelLeak, fuelLeak } from '@fairlead/airworthiness';
import { LeakCheckKind, LeakFluid, LeakSeen } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { appointLook } from './appoint-look.ts';
import { eventFields } from './event-fields.ts';
import {
  type LeakCheckStanding,
  leakCheckFacts,
  leakCheckStandings,
  type leakCheckStates,
} from './leak-checks.ts';
import { leakChecksInTurn } from './queries.ts';
import { recordLeakCheck } from './record-leak-check.ts';

builder.enumType(LeakCheckKind, {
  name: 'LeakCheckKind',
  description: 'When an aircraft is looked over for leaks.',
  values: {
    after_standing: { description: 'After it has stood, over a night for instance.' },
    after_run_up: { description: 'After the run-up.' },
  },
});
builder.enumType(LeakSeen, {
  name: 'LeakSeen',
  description: 'What a look for leaks saw.',
  values: {
    dry: { description: 'Nothing: dry.' },
    stain: { description: 'A stain, with its size.' },
    running_leak: { description: 'It drips or runs: not before flight.' },
  },
});
builder.enumType(LeakFluid, {
  name: 'LeakFluid',
  description: 'What leaked.',
  values: {
    fuel: { description: 'Fuel.' },
    oil: { description: 'Oil.' },
    hydraulic: { description: 'Hydraulic fluid.' },
    other: { description: 'Something else, or not known.' },
  },
});
const FuelLeakType = builder.enumType('FuelLeak', {
  description: 'What a fuel leak is called by its stain (FAA-H-8083-31, as quoted by others).',
  values: {
    stain: { description: 'Under ¾ inch across in 30 minutes.' },
    seep: { description: 'To 1½ inches.' },
    heavy_seep: { description: 'To 4 inches.' },
    running_leak: { description: 'More, or it drips or runs.' },
  } satisfies Record<FuelLeak, object>,
});
const State = builder.enumType('LeakCheckState', {
  description: 'Where a look for leaks stands. Derived from what happened.',
  values: {
    missing: { description: 'Neither appointed nor made.' },
    appointed: { description: 'Appointed, and not made yet.' },
    dry: { description: 'Made: dry.' },
    found: { description: 'Made: it leaks, and a finding says so.' },
    leaks: { description: 'Made: it leaks, and no finding says so.' },
  } satisfies Record<(typeof leakCheckStates)[number], object>,
});

const LeakCheckType = builder.prismaNode('LeakCheck', {
  id: { field: 'id' },
  description: 'A look for leaks that was appointed, or one that was made. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: LeakCheckKind, description: 'After what.' }),
    plannedFor: t.expose('plannedFor', {
      type: 'DateTime',
      nullable: true,
      description: 'For an appointed look: when.',
    }),
    seen: t.expose('seen', {
      type: LeakSeen,
      nullable: true,
      description: 'For a look that was made: what was seen.',
    }),
    fluid: t.expose('fluid', { type: LeakFluid, nullable: true, description: 'What leaked.' }),
    stainInches: t.expose('stainInches', {
      type: 'Decimal',
      nullable: true,
      description: 'Across the stain, inches.',
    }),
    fuelLeak: t.field({
      type: FuelLeakType,
      nullable: true,
      description: 'For fuel: what it is called.',
      select: { seen: true, fluid: true, stainInches: true },
      resolve: ({ seen, fluid, stainInches }) => {
        if (fluid !== 'fuel') return null;
        return seen === 'running_leak' || !stainInches
          ? 'running_leak'
          : fuelLeak(stainInches.toNumber());
      },
    }),
    words: t.exposeString('words', { description: 'Where, and more of it.' }),
    finding: t.relation('finding', { nullable: true, description: 'The finding that says so.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
  }),
});

const Standing = builder.objectRef<LeakCheckStanding>('LeakCheckStanding').implement({
  description: 'Where one of the looks for leaks of an order stands.',
  fields: (t) => ({
    kind: t.expose('kind', { type: LeakCheckKind, description: 'After what.' }),
    state: t.expose('state', { type: State, description: 'Where it stands.' }),
    last: t.prismaField({
      type: LeakCheckType,
      nullable: true,
      description: 'The appointment, or the look that was made.',
      resolve: (query, { last }, _, { read }) =>
        last ? read.leakCheck.findUnique({ ...query, where: { id: last.id } }) : null,
    }),
  }),
});
builder.prismaObjectField('WorkOrder', 'leakChecks', (t) =>
  t.field({
    type: [Standing],
    description:
      'Its looks for leaks: an inspection wants both, other work those that were appointed or made.',
    select: {
      inspection: true,
      leakChecks: { orderBy: leakChecksInTurn, select: leakCheckFacts },
    },
    resolve: leakCheckStandings,
  }),
);

builder.prismaObjectField('WorkOrder', 'appointedLook', (t) =>
  t.field({
    type: 'DateTime',
    nullable: true,
    description: 'The next look for leaks that is appointed and not made; null: none is.',
    select: {
      inspection: true,
      leakChecks: { orderBy: leakChecksInTurn, select: leakCheckFacts },
    },
    resolve: (order) =>
      leakCheckStandings(order)
        .flatMap(({ last }) => last?.plannedFor ?? [])
        .sort((one, other) => one.getTime() - other.getTime())[0] ?? null,
  }),
);

const AppointLookInput = builder.inputType('AppointLookInput', {
  description: 'A look for leaks that is appointed.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    kind: t.field({ type: LeakCheckKind, required: true, description: 'After what.' }),
    plannedFor: t.field({
      type: 'DateTime',
      required: true,
      description: 'When, within 31 days; the aircraft keeps its stand until then.',
    }),
    ...eventFields(t),
  }),
});
const RecordLeakCheckInput = builder.inputType('RecordLeakCheckInput', {
  description: 'A look for leaks that was made.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    kind: t.field({ type: LeakCheckKind, required: true, description: 'After what.' }),
    seen: t.field({ type: LeakSeen, required: true, description: 'What was seen.' }),
    fluid: t.field({ type: LeakFluid, description: 'What leaked; left out where it was dry.' }),
    stainInches: t.field({
      type: 'Decimal',
      description: 'For a stain: across, inches, above 0, with at most 2 decimals.',
    }),
    words: t.string({ description: 'Where, and more of it; at most 500 characters.' }),
    findingId: t.id({ description: 'The finding that says what leaks.' }),
    ...eventFields(t),
  }),
});

builder.mutationFields((t) => ({
  appointLook: t.prismaField({
    type: 'LeakCheck',
    errors: {},
    description:
      'Appoints a look for leaks. It keeps the aircraft on its stand and takes no hands.',
    args: { input: t.arg({ type: AppointLookInput, required: true, description: 'When.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await appointLook(context, {
        ...input,
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        at: input.at ?? null,
      });
      return context.read.leakCheck.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  recordLeakCheck: t.prismaField({
    type: 'LeakCheck',
    errors: {},
    description:
      'Records a look for leaks. The release waits for one that is dry, or that names a finding.',
    args: { input: t.arg({ type: RecordLeakCheckInput, required: true, description: 'It.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordLeakCheck(context, {
        ...input,
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        findingId: input.findingId ? keyOf('Finding', input.findingId, 'findingId') : null,
        fluid: input.fluid ?? null,
        stainInches: input.stainInches ?? null,
        words: input.words ?? '',
        at: input.at ?? null,
      });
      return context.read.leakCheck.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
