import { InspectionKind, OrderEventKind, ReleaseOutcome } from '@fairlead/database';
import { overrunAllowed } from '@fairlead/money';
import { builder } from '../builder.ts';
import { onOrderNow } from '../on-order.ts';
import { itemFacts, orderState, type orderStates } from '../states.ts';
import { beyondAuthority, writeOffFacts } from './beyond-authority.ts';
import { beyondOnOrder } from './beyond-with-part.ts';
import { type CostStep, costAhead } from './cost-ahead.ts';
import { type AmountSpread, completionFacts } from './cost-at-completion.ts';
import { costFacts, costSoFar } from './cost-so-far.ts';
import { forecastCost } from './forecast-cost.ts';
import { type Margin, marginFacts, marginSoFar } from './margin-so-far.ts';
import { priceOfWork } from './price-of-work.ts';
import { agreedFacts, agreedOf } from './queries.ts';

builder.enumType(OrderEventKind, {
  name: 'OrderEventKind',
  description: 'What happened to an order.',
  values: {
    arrived: { description: 'The aircraft was received.' },
    released: { description: 'It was approved for return to service, or given its list.' },
    closed: { description: 'The order is over.' },
    cancelled: { description: 'The order does not happen.' },
  },
});
builder.enumType(ReleaseOutcome, {
  name: 'ReleaseOutcome',
  description:
    'How a release ended. Not airworthy with the list given is a lawful end (14 CFR 43.11(a)(5)).',
  values: {
    airworthy: { description: 'Approved for return to service.' },
    not_airworthy_list_given: {
      description: 'Not approved; the owner has the list of what is wrong (14 CFR 43.11(b)).',
    },
  },
});

export const OrderState = builder.enumType('OrderState', {
  description: 'How far an order has come. Derived from what happened.',
  values: {
    planned: { description: 'The aircraft is not here yet.' },
    here: { description: 'The aircraft is here and there is work to do.' },
    ready_to_sign: { description: 'Every item is inspected or put off.' },
    released: { description: 'Approved for return to service, or handed back with its list.' },
    closed: { description: 'Over, and billed.' },
    cancelled: { description: 'Did not happen.' },
  } satisfies Record<(typeof orderStates)[number], object>,
});

// As `items` and `events` are asked for below, so that one reading of each serves the state as well.
const inOrder = { orderBy: { position: 'asc' } } as const;
const facts = {
  events: { orderBy: { at: 'asc' }, select: { kind: true, outcome: true } },
  items: {
    ...inOrder,
    select: {
      critical: true,
      events: itemFacts.events,
      stretches: { select: { startedAt: true, endedAt: true } },
    },
  },
} as const;

const CostStepType = builder.objectRef<CostStep>('CostStep').implement({
  description: 'From when on the work on an order has come to so much.',
  fields: (t) => ({
    at: t.expose('at', { type: 'DateTime', description: 'From when.' }),
    cost: t.expose('cost', { type: 'Minor', description: 'What it then comes to, net.' }),
  }),
});

const AmountSpreadType = builder.objectRef<AmountSpread>('AmountSpread').implement({
  description: 'An amount that is not known yet, net.',
  fields: (t) => ({
    p10: t.expose('p10', { type: 'Minor', description: 'One in ten comes out under this.' }),
    p50: t.expose('p50', { type: 'Minor', description: 'As likely over as under.' }),
    p80: t.expose('p80', { type: 'Minor', description: 'Eight in ten come out under this.' }),
    p90: t.expose('p90', { type: 'Minor', description: 'Nine in ten come out under this.' }),
  }),
});

const MarginType = builder.objectRef<Margin>('Margin').implement({
  description: 'What an order leaves the shop, so far, net.',
  fields: (t) => ({
    worth: t.expose('worth', {
      type: 'Minor',
      description: 'What the work has come to, no further than it is agreed.',
    }),
    labour: t.expose('labour', {
      type: 'Minor',
      description: 'What the clocked hours cost the shop.',
    }),
    parts: t.expose('parts', { type: 'Minor', description: 'What was paid for the parts.' }),
    charges: t.expose('charges', {
      type: 'Minor',
      description: 'What others charge, where somebody said what it costs.',
    }),
    left: t.expose('left', { type: 'Minor', description: 'What is left; below 0: a loss.' }),
    since: t.expose('since', {
      type: 'DateTime',
      nullable: true,
      description:
        'From when on it counts, where the aircraft was sold mid-work: what is of the owner of now. Null: from the beginning.',
    }),
  }),
});

builder.prismaNode('WorkOrder', {
  id: { field: 'id' },
  description: 'The job on one aircraft.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number, from 1 in the shop.' }),
    title: t.exposeString('title', { description: 'What it is called.' }),
    inspection: t.expose('inspection', {
      type: InspectionKind,
      nullable: true,
      description: 'Which inspection it holds, if one.',
    }),
    state: t.field({
      type: OrderState,
      description: 'How far it has come.',
      select: facts,
      resolve: orderState,
    }),
    outcome: t.field({
      type: ReleaseOutcome,
      nullable: true,
      description: 'How the release ended; null until then.',
      select: { events: facts.events },
      resolve: ({ events }) => events.find(({ kind }) => kind === 'released')?.outcome ?? null,
    }),
    aircraft: t.relation('aircraft', { description: 'Which aircraft.' }),
    openedAt: t.expose('openedAt', { type: 'DateTime', description: 'When it was opened.' }),
    plannedFor: t.expose('plannedFor', {
      type: 'DateTime',
      nullable: true,
      description: 'When the aircraft is expected.',
    }),
    events: t.relation('events', {
      description: 'What happened, in order.',
      query: { orderBy: facts.events.orderBy },
    }),
    squawks: t.relation('squawks', {
      description: 'What was reported at arrival, in the words of who did.',
      query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
    }),
    received: t.relation('received', {
      description: 'What came with the aircraft and goes back with it.',
      query: { orderBy: [{ receivedAt: 'asc' }, { id: 'asc' }] },
    }),
    readings: t.relation('readings', {
      description: 'Meters read on this visit.',
      query: { orderBy: [{ readAt: 'asc' }, { meter: 'asc' }] },
    }),
    items: t.relation('items', { description: 'What there is to do, in order.', query: inOrder }),
    findings: t.relation('findings', {
      description: 'What was found, by number.',
      query: { orderBy: { number: 'asc' } },
    }),
    quotes: t.relation('quotes', {
      description: 'What was offered for it, by number.',
      query: { orderBy: { number: 'asc' } },
    }),
    agreed: t.field({
      type: 'Minor',
      description: "How far the owner's yes goes, net, over all its quotes.",
      select: agreedFacts,
      resolve: agreedOf,
    }),
    costSoFar: t.field({
      type: 'Minor',
      nullable: true,
      description:
        "What the work has come to so far, net: fixed prices once begun, hours by the shop's rule at their rate, parts issued. Null: hours were clocked that nobody quoted, and there is no labour rate for today.",
      select: costFacts,
      resolve: async (order, _, context) =>
        costSoFar(order, await priceOfWork(context), context.now()),
    }),
    costAhead: t.field({
      type: [CostStepType],
      description:
        'What it comes to in the next eight hours if the clocks that run on it run on: each minute at which that changes, earliest first. For a page that follows a running clock without asking.',
      select: costFacts,
      resolve: async (order, _, context) =>
        costAhead(order, await priceOfWork(context), context.now()),
    }),
    costAtCompletion: t.field({
      type: AmountSpreadType,
      nullable: true,
      description:
        'What it comes to when all that is left of it is done, net, from the hours left given those clocked already. Findings that nobody agreed to yet come on top. Null: nothing is left to do, or there is no labour rate for today.',
      select: completionFacts,
      resolve: (order, _, context) => forecastCost(context, order),
    }),
    margin: t.field({
      type: MarginType,
      nullable: true,
      description:
        'What is left of the cost so far, as far as it is agreed, after what the work cost the shop. For the manager; null for others, and where no rate of the kind "cost" says what an hour costs.',
      select: marginFacts,
      resolve: (order, _, context) => marginSoFar(context, order),
    }),
    beyondAuthority: t.field({
      type: 'Minor',
      nullable: true,
      description:
        "How far the cost so far goes past what the owner agreed to and the shop's rule allows, as far as nobody wrote it off; 0 where it does not.",
      select: { ...agreedFacts, ...costFacts, writeOffs: writeOffFacts },
      resolve: async (order, _, context) => {
        const price = await priceOfWork(context);
        return beyondAuthority(order, costSoFar(order, price, context.now()), price.overrun);
      },
    }),
    beyondOnOrder: t.field({
      type: 'Minor',
      nullable: true,
      description:
        'How much further past what the owner agreed to it goes with the parts that are on order for it, at what they are billed at; 0 where it does not.',
      select: { id: true, ...agreedFacts, ...costFacts },
      resolve: async (order, _, context) => {
        const onWay = (await onOrderNow(context)).filter(({ orderId }) => orderId === order.id);
        return beyondOnOrder(order, onWay, await priceOfWork(context), context.now());
      },
    }),
    overrunAllowed: t.field({
      type: 'Minor',
      description:
        "How far past the owner's yes the shop may go without asking, by its own rule, net; 0 where it has none.",
      select: agreedFacts,
      resolve: async (order, _, context) =>
        overrunAllowed(agreedOf(order), (await priceOfWork(context)).overrun),
    }),
    writeOffs: t.relation('writeOffs', {
      description: "What was worked past the owner's yes and is the shop's own, by name.",
      query: { orderBy: [{ at: 'asc' }, { id: 'asc' }] },
    }),
  }),
});

builder.prismaNode('OrderEvent', {
  id: { field: 'id' },
  description: 'Something that happened to an order. Never changed.',
  fields: (t) => ({
    kind: t.expose('kind', { type: OrderEventKind, description: 'What.' }),
    outcome: t.expose('outcome', {
      type: ReleaseOutcome,
      nullable: true,
      description: 'For a release: how it ended.',
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
  }),
});

builder.prismaNode('Squawk', {
  id: { field: 'id' },
  description: 'What the pilot or owner reported at arrival.',
  fields: (t) => ({
    words: t.exposeString('words', { description: 'In their own words.' }),
    reportedBy: t.exposeString('reportedBy', { description: 'Who reported it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
  }),
});

builder.prismaNode('ReceivedThing', {
  id: { field: 'id' },
  description: 'Something that came with the aircraft and goes back with it.',
  fields: (t) => ({
    what: t.exposeString('what', { description: 'What it is.' }),
    receivedAt: t.expose('receivedAt', { type: 'DateTime', description: 'When it was received.' }),
    returnedAt: t.expose('returnedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it was given back.',
    }),
  }),
});
