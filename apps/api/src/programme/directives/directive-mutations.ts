import { DueKind, DueRule } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { countsGiven, countsUnder } from '../counts.ts';
import { CountsInput } from '../counts-schema.ts';
import { addDirective } from './add-directive.ts';
import { decideDirective } from './decide-directive.ts';

const DirectiveReachInput = builder.inputType('DirectiveReachInput', {
  description: 'One line of what a directive applies to: a model, a part number, or both.',
  fields: (t) => ({
    modelId: t.id({ description: 'The model; left out: any.' }),
    partNumber: t.string({ description: 'Number of an engine or another part.' }),
    serials: t.string({
      description:
        'Serial numbers of the part, or else of the aircraft: "1000 to 1100, 1204, 1300 and up". Left out: all.',
    }),
  }),
});
const AddDirectiveInput = builder.inputType('AddDirectiveInput', {
  description: 'A directive, a bulletin or a maker’s limit, as it was published.',
  fields: (t) => ({
    kind: t.field({
      type: DueKind,
      required: true,
      description: 'directive, bulletin or limit.',
    }),
    authority: t.string({ required: true, description: 'Who issued it, 2 to 120 characters.' }),
    number: t.string({ required: true, description: 'Its number, 1 to 100 characters.' }),
    revision: t.string({ description: 'Its revision.' }),
    revisedOn: t.field({ type: 'Date', required: true, description: 'Date of this revision.' }),
    effectiveOn: t.field({ type: 'Date', required: true, description: 'When it takes effect.' }),
    subject: t.string({ required: true, description: 'What it is about, 2 to 200 characters.' }),
    method: t.string({
      required: true,
      description: 'What it asks to be done, with its paragraph: 2 to 2,000 characters.',
    }),
    rule: t.field({
      type: DueRule,
      required: true,
      description: 'once, recurring, or for a maker’s limit life_limit.',
    }),
    withinHundredths: t.int({
      description: 'The first time within so many hundredths of an hour after it takes effect.',
    }),
    withinDays: t.int({ description: 'The first time within so many days after it takes effect.' }),
    withinCounts: t.field({
      type: CountsInput,
      description: 'The first time within so many after it takes effect.',
    }),
    limitCounts: t.field({
      type: CountsInput,
      description: 'The first time, or of a life its end, by these counts.',
    }),
    everyCounts: t.field({ type: CountsInput, description: 'Then every so many of these.' }),
    limitHundredths: t.int({
      description: 'The first time, or of a life its end, by this time in service in hundredths.',
    }),
    limitDate: t.field({ type: 'Date', description: 'The first time by this day.' }),
    everyHundredths: t.int({ description: 'Then every so many hundredths of an hour.' }),
    everyMonths: t.int({ description: 'Then every so many months, to the day.' }),
    everyCalendarMonths: t.int({ description: 'Then every so many calendar months.' }),
    everyDays: t.int({ description: 'Then every so many days.' }),
    whicheverLast: t.boolean({
      defaultValue: false,
      description: 'Of several, the one that comes last counts; else the first.',
    }),
    terminating: t.string({ description: 'What ends the repeat, at most 500 characters.' }),
    taskId: t.id({ description: 'The shop’s task for it, so that it goes onto a quote.' }),
    supersedesId: t.id({ description: 'The directive whose place it takes.' }),
    reaches: t.field({
      type: [DirectiveReachInput],
      required: true,
      description: 'What it applies to: 1 to 50 lines.',
    }),
  }),
});
const DecideDirectiveInput = builder.inputType('DecideDirectiveInput', {
  description: 'Whether a directive binds an aircraft or a part.',
  fields: (t) => ({
    directiveId: t.id({ required: true, description: 'The directive.' }),
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    componentId: t.id({ description: 'The part, where it is about one that is fitted.' }),
    binds: t.boolean({ required: true, description: 'It applies, or is chosen; or not.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
    limitHundredths: t.int({
      description:
        'By which time in service it is due first, where its words alone do not tell; of a part, its own. Hundredths.',
    }),
    limitDate: t.field({ type: 'Date', description: 'By which day it is due first.' }),
    limitCounts: t.field({
      type: CountsInput,
      description: 'By which counts it is due first; of a part, its own.',
    }),
  }),
});

builder.mutationFields((t) => ({
  addDirective: t.prismaField({
    type: 'Directive',
    errors: {},
    description:
      'Enters a directive, a bulletin or a maker’s limit. For an inspector or the manager.',
    args: {
      input: t.arg({
        type: AddDirectiveInput,
        required: true,
        description: 'As it was published.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const given = (value: number | null | undefined) => value ?? null;
      const id = await addDirective(context, {
        ...{ kind: input.kind, authority: input.authority, number: input.number },
        ...{ revision: input.revision ?? '', revisedOn: input.revisedOn },
        ...{ effectiveOn: input.effectiveOn, subject: input.subject, method: input.method },
        ...{ rule: input.rule, withinHundredths: given(input.withinHundredths) },
        ...{ withinDays: given(input.withinDays), limitHundredths: given(input.limitHundredths) },
        ...{ limitDate: input.limitDate ?? null, everyHundredths: given(input.everyHundredths) },
        ...countsUnder('within', countsGiven(input.withinCounts)),
        ...countsUnder('limit', countsGiven(input.limitCounts)),
        ...countsUnder('every', countsGiven(input.everyCounts)),
        everyMonths: given(input.everyMonths),
        everyCalendarMonths: given(input.everyCalendarMonths),
        ...{ everyDays: given(input.everyDays), whicheverLast: input.whicheverLast ?? false },
        terminating: input.terminating ?? '',
        taskId: input.taskId ? keyOf('Task', input.taskId, 'taskId') : null,
        supersedesId: input.supersedesId
          ? keyOf('Directive', input.supersedesId, 'supersedesId')
          : null,
        reaches: input.reaches.map(({ modelId, partNumber, serials }) => ({
          modelId: modelId ? keyOf('AircraftModel', modelId, 'reaches.modelId') : null,
          partNumber: partNumber ?? '',
          serials: serials ?? '',
        })),
      });
      return context.read.directive.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  decideDirective: t.prismaField({
    type: 'Directive',
    errors: {},
    description:
      'Decides whether a directive applies, or a bulletin is chosen, by name and with a reason. Of a directive: for who holds a certificate.',
    args: {
      input: t.arg({ type: DecideDirectiveInput, required: true, description: 'Which, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await decideDirective(context, {
        directiveId: keyOf('Directive', input.directiveId, 'directiveId'),
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        componentId: input.componentId
          ? keyOf('Component', input.componentId, 'componentId')
          : null,
        ...{ binds: input.binds, reason: input.reason },
        ...{ limitHundredths: input.limitHundredths ?? null, limitDate: input.limitDate ?? null },
        limitCounts: countsGiven(input.limitCounts),
      });
      return context.read.directive.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
