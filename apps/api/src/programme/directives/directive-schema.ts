import { counters } from '@fairlead/airworthiness';
import { DueKind, DueRule } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { globalId } from '../../ids.ts';
import { countsFrom } from '../counts.ts';
import { CounterType } from '../counts-schema.ts';
import { countersAsked } from '../due-terms.ts';
import { type DecisionRow, type DirectiveLine, directivesOf } from './directives-of.ts';
import { termsInWords } from './terms-in-words.ts';

const ReachFoundType = builder.enumType('ReachFound', {
  description: 'What the program finds by what is listed and fitted: an aid, never the decision.',
  values: {
    applies: { description: 'It lies within what is listed.' },
    does_not: { description: 'It lies outside, or is not fitted.' },
    unclear: { description: 'It cannot be told: a person has to look.' },
  },
});

builder.prismaNode('DirectiveReach', {
  id: { field: 'id' },
  description: 'One line of what a directive applies to.',
  fields: (t) => ({
    model: t.relation('model', { nullable: true, description: 'The model; null: any.' }),
    partNumber: t.exposeString('partNumber', {
      description: 'Number of the part that it is about; empty: of the aircraft itself.',
    }),
    serials: t.exposeString('serials', {
      description: 'Serial numbers of the part, or else of the aircraft; empty: all.',
    }),
  }),
});

builder.prismaNode('Directive', {
  id: { field: 'id' },
  description:
    'A directive, a bulletin or a maker’s limit as the shop entered it. The authority’s or the maker’s own publication counts.',
  fields: (t) => ({
    kind: t.expose('kind', { type: DueKind, description: 'What it is.' }),
    authority: t.exposeString('authority', { description: 'Who issued it.' }),
    number: t.exposeString('number', { description: 'Its number.' }),
    revision: t.exposeString('revision', { description: 'Its revision.' }),
    revisedOn: t.expose('revisedOn', { type: 'Date', description: 'The date of this revision.' }),
    effectiveOn: t.expose('effectiveOn', { type: 'Date', description: 'When it takes effect.' }),
    subject: t.exposeString('subject', { description: 'What it is about.' }),
    method: t.exposeString('method', { description: 'What it asks to be done.' }),
    rule: t.expose('rule', { type: DueRule, description: 'By which rule it is reckoned.' }),
    terms: t.string({
      description: 'By when, and how often, in words.',
      select: {
        ...{ rule: true, effectiveOn: true, whicheverLast: true, withinHundredths: true },
        ...{ withinDays: true, limitHundredths: true, limitDate: true, everyHundredths: true },
        ...{ everyMonths: true, everyCalendarMonths: true, everyDays: true },
        ...{ everyCycles: true, everyLandings: true, everyStarts: true },
        ...{ limitCycles: true, limitLandings: true, limitStarts: true },
        ...{ withinCycles: true, withinLandings: true, withinStarts: true },
      },
      resolve: termsInWords,
    }),
    countsAsked: t.field({
      type: [CounterType],
      description: 'By which counts it is due, the first time or again; of most none.',
      select: {
        ...{ everyCycles: true, everyLandings: true, everyStarts: true },
        ...{ limitCycles: true, limitLandings: true, limitStarts: true },
        ...{ withinCycles: true, withinLandings: true, withinStarts: true },
      },
      resolve: (directive) =>
        counters.filter(
          (counter) =>
            countersAsked(directive).includes(counter) ||
            countsFrom('within', directive)[counter] !== null,
        ),
    }),
    terminating: t.exposeString('terminating', {
      description: 'What ends the repeat; empty: nothing does.',
    }),
    task: t.relation('task', { nullable: true, description: 'The shop’s task for it.' }),
    supersedes: t.relation('supersedes', {
      nullable: true,
      description: 'The one whose place it takes.',
    }),
    supersededBy: t.relation('supersededBy', {
      nullable: true,
      description: 'The one that took its place.',
    }),
    reaches: t.relation('reaches', {
      description: 'What it applies to.',
      query: { orderBy: { position: 'asc' } },
    }),
    addedBy: t.relation('addedBy', { description: 'Who entered it.' }),
    addedAt: t.expose('addedAt', { type: 'DateTime', description: 'When it was entered.' }),
    aircraft: t.field({
      type: [LineType],
      description: 'The aircraft and parts of the shop that it reaches or was decided on for.',
      resolve: async ({ id }, _, { read }) => {
        const all = await read.aircraft.findMany({ select: { id: true } });
        const lines = await directivesOf(
          read,
          all.map((each) => each.id),
        );
        return lines.filter(({ directive }) => directive.id === id);
      },
    }),
  }),
});

const DecisionType = builder.objectRef<DecisionRow>('DirectiveDecision').implement({
  description: 'What a person decided, over whatever the program found.',
  fields: (t) => ({
    binds: t.exposeBoolean('binds', { description: 'It applies, or is chosen.' }),
    reason: t.exposeString('reason', { description: 'Why.' }),
    found: t.exposeString('found', { description: 'What the program had found then.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.string({ description: 'By whom.', resolve: ({ by }) => by.name }),
    itemId: t.id({
      nullable: true,
      description: 'What falls due by it.',
      resolve: ({ itemId }) => itemId && globalId('DueItem', itemId),
    }),
  }),
});

const LineType = builder.objectRef<DirectiveLine>('DirectiveLine');
LineType.implement({
  description: 'What a directive is to an aircraft, or to one part that is fitted to it.',
  fields: (t) => ({
    directive: t.prismaField({
      type: 'Directive',
      description: 'The directive.',
      resolve: (query, { directive: { id } }, _, { read }) =>
        read.directive.findUniqueOrThrow({ ...query, where: { id } }),
    }),
    aircraft: t.prismaField({
      type: 'Aircraft',
      description: 'The aircraft.',
      resolve: (query, { aircraftId: id }, _, { read }) =>
        read.aircraft.findUniqueOrThrow({ ...query, where: { id } }),
    }),
    componentId: t.id({
      nullable: true,
      description: 'The part; null: the aircraft itself.',
      resolve: ({ part }) => part && globalId('Component', part.id),
    }),
    part: t.string({
      nullable: true,
      description: 'The part with its numbers.',
      resolve: ({ part }) => part && `${part.title}, ${part.partNumber}, serial ${part.serial}`,
    }),
    found: t.field({
      type: ReachFoundType,
      description: 'What the program finds.',
      resolve: ({ found }) => found,
    }),
    because: t.exposeString('because', { description: 'Why, in a sentence.' }),
    decision: t.field({
      type: DecisionType,
      nullable: true,
      description: 'What a person decided; null: nobody did yet.',
      resolve: ({ decision }) => decision,
    }),
  }),
});

builder.prismaObjectField('Aircraft', 'directives', (t) =>
  t.field({
    type: [LineType],
    description:
      'Directives, bulletins and makers’ limits that reach it by what is entered here, or on which somebody decided. The authority’s own list counts.',
    select: { id: true },
    resolve: ({ id }, _, { read }) => directivesOf(read, [id]),
  }),
);

builder.queryFields((t) => ({
  directives: t.prismaField({
    type: ['Directive'],
    description: 'Directives, bulletins and makers’ limits that the shop entered, newest first.',
    resolve: (query, _, __, { read }) =>
      read.directive.findMany({ ...query, orderBy: [{ revisedOn: 'desc' }, { id: 'desc' }] }),
  }),
}));
