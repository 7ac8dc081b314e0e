import { OpenKind, OpenLineEventKind, ToolCountKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import { clientEventIdIs } from './event-fields.ts';
import { openLineFacts, openLineState, type openLineStates } from './open-lines.ts';
import { unclosed, unclosedFacts } from './queries.ts';
import { type CountState, countStates } from './tool-counts.ts';

builder.enumType(OpenKind, {
  name: 'OpenKind',
  description: 'Whether something was opened or taken off.',
  values: {
    opened: { description: 'A panel, a door, a fairing.' },
    removed: { description: 'A part that was taken off.' },
  },
});
builder.enumType(OpenLineEventKind, {
  name: 'OpenLineEventKind',
  description: 'What became of something that was opened or taken off.',
  values: {
    closed: { description: 'Closed, or refitted.' },
    reopened: { description: 'Open or off again.' },
    struck_out: { description: 'It never was so: noted by mistake.' },
  },
});
builder.enumType(ToolCountKind, {
  name: 'ToolCountKind',
  description: 'Which way a count of tools and rags went.',
  values: {
    out: { description: 'Counted out to the aircraft.' },
    back: { description: 'Counted back, all of them.' },
    accounted_for: { description: 'What is missing is explained, in words.' },
  },
});
const OpenLineState = builder.enumType('OpenLineState', {
  description: 'Whether something is still open. Derived from what happened.',
  values: {
    open: { description: 'Open, or off.' },
    closed: { description: 'Closed, or refitted.' },
    struck_out: { description: 'Noted by mistake.' },
  } satisfies Record<(typeof openLineStates)[number], object>,
});

const { events } = openLineFacts;

builder.prismaNode('OpenLine', {
  id: { field: 'id' },
  description:
    'Something that was opened or taken off. Never changed: what became of it is events.',
  fields: (t) => ({
    kind: t.expose('kind', { type: OpenKind, description: 'Opened, or removed.' }),
    words: t.exposeString('words', { description: 'What.' }),
    place: t.exposeString('place', { description: 'Where on the aircraft.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'By whom.' }),
    item: t.relation('item', { nullable: true, description: 'For which item; null: the order.' }),
    clientEventId: t.exposeString('clientEventId', { description: clientEventIdIs }),
    state: t.field({
      type: OpenLineState,
      description: 'Whether it still is.',
      select: { events },
      resolve: openLineState,
    }),
    events: t.relation('events', {
      description: 'What became of it, in order.',
      query: { orderBy: events.orderBy },
    }),
  }),
});

builder.prismaNode('OpenLineEvent', {
  id: { field: 'id' },
  description: 'What became of something that was opened or taken off. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: OpenLineEventKind, description: 'What.' }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
    clientEventId: t.exposeString('clientEventId', { description: clientEventIdIs }),
  }),
});

const CountedName = builder.objectRef<CountState['names'][number]>('CountedName').implement({
  description: 'A tool, or a kind of rag, with its numbers.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'What.' }),
    out: t.exposeInt('out', { description: 'How many went out.' }),
    back: t.exposeInt('back', {
      nullable: true,
      description: 'How many the last count back found; null: not counted back yet.',
    }),
  }),
});

const CountStateType = builder.objectRef<CountState>('ToolCountState').implement({
  description: 'Where the count of tools and rags stands, for an order or for one of its items.',
  fields: (t) => ({
    itemId: t.id({
      nullable: true,
      description: 'For which item; null: for the order.',
      resolve: ({ itemId }) => (itemId ? globalId('WorkItem', itemId) : null),
    }),
    names: t.field({
      type: [CountedName],
      description: 'Everything out since the last count that agreed; empty: all is back.',
      resolve: ({ names }) => names,
    }),
    agrees: t.exposeBoolean('agrees', { description: 'Whether all that went out is back.' }),
    lastAt: t.expose('lastAt', { type: 'DateTime', description: 'When it was last counted.' }),
    lastBy: t.exposeString('lastBy', { description: 'Who counted last.' }),
    clientEventIds: t.exposeStringList('clientEventIds', {
      description: 'Of which counts it is made, by the ids that their devices gave them.',
    }),
  }),
});

builder.prismaNode('ToolCount', {
  id: { field: 'id' },
  description: 'A count of tools and rags. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: ToolCountKind, description: 'Which way.' }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
    item: t.relation('item', { nullable: true, description: 'For which item; null: the order.' }),
    order: t.relation('order', { description: 'For which order.' }),
    lines: t.relation('lines', {
      description: 'What was counted.',
      query: { orderBy: { name: 'asc' } },
    }),
  }),
});
builder.prismaObject('ToolCountLine', {
  description: 'A name on a count, with its number.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'What.' }),
    number: t.exposeInt('number', { description: 'How many.' }),
  }),
});

builder.prismaObjectFields('WorkOrder', (t) => ({
  openLines: t.relation('openLines', {
    description: 'What was opened and taken off, in order.',
    query: { orderBy: unclosedFacts.openLines.orderBy },
  }),
  toolCounts: t.field({
    type: [CountStateType],
    description: 'Where the counts of tools and rags stand.',
    select: { toolCounts: unclosedFacts.toolCounts },
    resolve: ({ toolCounts }) => countStates(toolCounts),
  }),
  unclosed: t.stringList({
    description: 'What has to be closed before anybody signs, each in one sentence.',
    select: unclosedFacts,
    resolve: (order) => unclosed(order).map(({ hinders }) => hinders),
  }),
  unclosedCount: t.int({
    description: 'How many things have to be closed before anybody signs.',
    select: unclosedFacts,
    resolve: (order) => unclosed(order).length,
  }),
}));
