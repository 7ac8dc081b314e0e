import { ClockEventKind, ItemEventKind, WaitingFor } from '@fairlead/database';
import { builder } from '../builder.ts';
import { itemFacts, itemState, type itemStates } from '../states.ts';
import { secondsOf } from './stretches.ts';

builder.enumType(ClockEventKind, {
  name: 'ClockEventKind',
  description: 'What a clock did, or that the time of an earlier event was wrong.',
  values: {
    start: { description: 'Somebody began to work on an item.' },
    switch: { description: 'They went over from one item to another.' },
    stop: { description: 'They stopped.' },
    correction: {
      description: 'The time of an earlier event was wrong; this one says the right one.',
    },
  },
});
builder.enumType(ItemEventKind, {
  name: 'ItemEventKind',
  description: 'What happened to an item besides the clock.',
  values: {
    waiting: { description: 'The work waits for something.' },
    resumed: { description: 'It waits no longer.' },
    done: { description: 'The work is done, in the words of who did it.' },
    reopened: { description: 'It has to be worked on again; earlier initials no longer count.' },
    initialled: { description: 'An inspector looked at it and found it good.' },
    second_inspected: { description: 'A second person looked at a critical item.' },
    put_off: { description: 'It is not done on this visit.' },
  },
});
builder.enumType(WaitingFor, {
  name: 'WaitingFor',
  description: 'What an item waits for.',
  values: {
    parts: { description: 'Parts that are not in the stores.' },
    owner: { description: "The owner's answer." },
    bay: { description: 'A place for the aircraft to stand.' },
    help: { description: 'A second pair of hands.' },
    inspection: { description: 'An inspector, before the work can go on.' },
  },
});

export const ItemState = builder.enumType('ItemState', {
  description: 'How far an item has come. Derived from what happened to it.',
  values: {
    open: { description: 'Not begun.' },
    in_work: { description: 'Somebody has clocked on it.' },
    waiting: { description: 'It waits for something.' },
    done: {
      description: 'The work is done; an inspector has not looked at it, or not often enough.',
    },
    inspected: { description: 'Initialled; if critical, by a second person as well.' },
    put_off: { description: 'Not on this visit.' },
  } satisfies Record<(typeof itemStates)[number], object>,
});

// One selection for all that is computed from stretches and events, so that they are read once.
const stretches = { select: { startedAt: true, endedAt: true, personId: true } } as const;
const { events } = itemFacts;

builder.prismaNode('WorkItem', {
  id: { field: 'id' },
  description: "One task, or one finding's correction, on an order.",
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place on the order, from 1.' }),
    title: t.exposeString('title', { description: 'What is done.' }),
    jasc: t.exposeString('jasc', { description: 'JASC code, four digits.' }),
    critical: t.exposeBoolean('critical', {
      description: 'Wants a second, independent inspection.',
    }),
    cautions: t.exposeStringList('cautions', {
      description: 'Hazards, shown before the clock starts.',
    }),
    reference: t.exposeString('reference', { description: 'The data that the work is done by.' }),
    order: t.relation('order', { description: 'The job that it is part of.' }),
    plannedAccess: t.relation('plannedAccess', {
      nullable: true,
      description: 'The place as it was planned for.',
    }),
    foundAccess: t.prismaField({
      type: 'Access',
      nullable: true,
      description: 'The place as it was found, said when it was last done.',
      select: (_args, _context, nested) => ({
        events: {
          orderBy: events.orderBy,
          select: { kind: true, waitingFor: true, byId: true, foundAccess: nested() },
        },
      }),
      resolve: (_query, item) =>
        item.events.findLast(({ kind }) => kind === 'done')?.foundAccess ?? null,
    }),
    task: t.relation('task', {
      nullable: true,
      description: "The task, where it is one of the shop's.",
    }),
    finding: t.relation('finding', {
      nullable: true,
      description: 'The finding that it corrects.',
    }),
    quoteLine: t.relation('quoteLine', { nullable: true, description: 'What it was sold as.' }),
    state: t.field({
      type: ItemState,
      description: 'How far it has come.',
      select: { critical: true, events, stretches },
      resolve: itemState,
    }),
    waitingFor: t.field({
      type: WaitingFor,
      nullable: true,
      description: 'What it waits for, while it waits.',
      select: { critical: true, events, stretches },
      resolve: (item) =>
        itemState(item) === 'waiting'
          ? (item.events.findLast(({ kind }) => kind === 'waiting')?.waitingFor ?? null)
          : null,
    }),
    secondsWorked: t.int({
      description: 'Hands-on time so far, all people added, seconds.',
      select: { stretches },
      resolve: (item, _, { now }) =>
        item.stretches.reduce((sum, stretch) => sum + secondsOf(stretch, now()), 0),
    }),
    stretches: t.relation('stretches', {
      description: 'Who worked on it when, earliest first.',
      query: { orderBy: { startedAt: 'asc' } },
    }),
    runningBy: t.prismaField({
      type: ['Person'],
      description: 'Whose clocks run on it now.',
      select: (_args, _context, nested) => ({
        stretches: { select: { ...stretches.select, person: nested() } },
      }),
      resolve: (_query, item) =>
        item.stretches.filter(({ endedAt }) => !endedAt).map(({ person }) => person),
    }),
    findings: t.relation('findings', {
      description: 'What was found while at it.',
      query: { orderBy: { number: 'asc' } },
    }),
    events: t.relation('events', {
      description: 'What happened to it, in order.',
      query: { orderBy: events.orderBy },
    }),
    cautionsRead: t.boolean({
      description: 'Whether the person signed in said that they read its cautions.',
      select: (_args, { viewer }) => ({
        cautionReadings: { where: { personId: viewer?.personId ?? '' }, select: { id: true } },
      }),
      resolve: ({ cautions, cautionReadings }) =>
        cautions.length === 0 || cautionReadings.length > 0,
    }),
  }),
});

builder.prismaNode('ItemEvent', {
  id: { field: 'id' },
  description: 'Something that happened to an item besides the clock. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: ItemEventKind, description: 'What.' }),
    waitingFor: t.expose('waitingFor', {
      type: WaitingFor,
      nullable: true,
      description: 'For waiting: for what.',
    }),
    workDone: t.exposeString('workDone', {
      description: 'For done: the work performed (14 CFR 43.9(a)(1)).',
    }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
  }),
});

builder.prismaNode('Stretch', {
  id: { field: 'id' },
  description:
    'Unbroken time of one person on one item. Its id changes when the clock is corrected.',
  fields: (t) => ({
    person: t.relation('person', { description: 'Who.' }),
    item: t.relation('item', { description: 'On what.' }),
    startedAt: t.expose('startedAt', { type: 'DateTime', description: 'From when.' }),
    endedAt: t.expose('endedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'To when; null: it runs.',
    }),
    supervisedBy: t.relation('supervisedBy', {
      nullable: true,
      description:
        'Under whose supervision; the same hours are theirs as overseen, and are billed once.',
    }),
    seconds: t.int({
      description: 'How long, whole seconds; up to now where it runs.',
      select: { startedAt: true, endedAt: true },
      resolve: (stretch, _, { now }) => secondsOf(stretch, now()),
    }),
  }),
});

builder.prismaNode('ClockEvent', {
  id: { field: 'id' },
  description:
    "What a person's clock did, as their device sent it. Never changed: a correction is one more event.",
  fields: (t) => ({
    kind: t.expose('kind', { type: ClockEventKind, description: 'What it did.' }),
    person: t.relation('person', { description: 'Whose clock.' }),
    item: t.relation('item', { nullable: true, description: 'On what.' }),
    at: t.expose('at', {
      type: 'DateTime',
      description:
        'When: by the clock of the device, put right by how far it was off; for a correction the better time.',
    }),
    deviceAt: t.expose('deviceAt', {
      type: 'DateTime',
      nullable: true,
      description: 'What the clock of the device said, where it knew how far that was off.',
    }),
    receivedAt: t.expose('receivedAt', { type: 'DateTime', description: 'When it arrived here.' }),
    clientEventId: t.exposeString('clientEventId', {
      description: 'The id that the device gave it.',
    }),
    reason: t.exposeString('reason', {
      description: 'For a correction, or what was said of a forgotten clock: why.',
    }),
    answers: t.relation('answers', {
      nullable: true,
      description: 'The start of the clock that looked forgotten, of which this says how it was.',
    }),
    corrects: t.relation('corrects', {
      nullable: true,
      description: 'For a correction: the event whose time it replaces.',
    }),
    corrections: t.relation('corrections', {
      description: 'Better times given for it; the last one counts.',
      query: { orderBy: { id: 'asc' } },
    }),
  }),
});
