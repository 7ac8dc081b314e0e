import { cautionsOn, inoperativeQuestions } from '@fairlead/airworthiness';
import { InoperativeKind, InoperativeMethod } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { leaveInoperative, withdrawInoperative } from './leave-inoperative.ts';

builder.enumType(InoperativeKind, {
  name: 'InoperativeKind',
  description: 'What is said of inoperative equipment.',
  values: {
    left: { description: 'It may stay inoperative, as 14 CFR 91.213(d) permits.' },
    withdrawn: { description: 'That was taken back.' },
  },
});
builder.enumType(InoperativeMethod, {
  name: 'InoperativeMethod',
  description: 'How it is kept from being used: 14 CFR 91.213(d)(3).',
  values: {
    removed: { description: 'Removed, its cockpit control placarded.' },
    deactivated: { description: 'Deactivated and placarded.' },
  },
});

builder.prismaNode('InoperativeEquipment', {
  id: { field: 'id' },
  description:
    'That equipment stays inoperative, or no longer. Never changed; the newest of a finding holds.',
  fields: (t) => ({
    kind: t.expose('kind', { type: InoperativeKind, description: 'What.' }),
    equipment: t.exposeString('equipment', { description: 'Which equipment.' }),
    method: t.expose('method', {
      type: InoperativeMethod,
      nullable: true,
      description: 'How it is kept from being used.',
    }),
    placardAt: t.exposeString('placardAt', { description: 'Where the placard is.' }),
    answers: t.stringList({
      description: 'What the person looked at, question by question, each with its paragraph.',
      select: {
        ...{ notTypeBasis: true, notListed: true, notRuled: true, notDirected: true },
        noHazard: true,
      },
      resolve: (row) =>
        inoperativeQuestions.flatMap(({ key, paragraph, asks }) =>
          row[key] === '' ? [] : [`${asks} (${paragraph}): ${row[key]}`],
        ),
    }),
    words: t.exposeString('words', { description: 'Why it was taken back.' }),
    capacity: t.exposeString('capacity', { description: 'In which capacity it was found.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
  }),
});

interface Question {
  key: string;
  paragraph: string;
  asks: string;
}
const QuestionType = builder.objectRef<Question>('InoperativeQuestion').implement({
  description: 'What a qualified person finds before equipment may stay inoperative.',
  fields: (t) => ({
    key: t.exposeString('key', { description: 'The field of its answer.' }),
    paragraph: t.exposeString('paragraph', { description: 'Its paragraph.' }),
    asks: t.exposeString('asks', { description: 'What is found.' }),
  }),
});
builder.queryField('inoperativeQuestions', (t) =>
  t.field({
    type: [QuestionType],
    description: 'The questions of 14 CFR 91.213(d), in order.',
    resolve: () => [...inoperativeQuestions],
  }),
);

builder.prismaObjectFields('Finding', (t) => ({
  inoperative: t.relation('inoperative', {
    description: 'What was said of it as inoperative equipment, newest first.',
    query: { orderBy: [{ at: 'desc' }, { id: 'desc' }] },
  }),
  inoperativeCautions: t.stringList({
    description: 'What has to be kept in mind when equipment is left inoperative.',
    resolve: () => cautionsOn('inoperative').map(({ text }) => text),
  }),
}));

const LeaveInoperativeInput = builder.inputType('LeaveInoperativeInput', {
  description: 'Equipment that stays inoperative, with what the person looked at.',
  fields: (t) => ({
    findingId: t.id({ required: true, description: 'The finding: put off, or declined.' }),
    equipment: t.string({ required: true, description: 'Which equipment, 2 to 120 characters.' }),
    method: t.field({ type: InoperativeMethod, required: true, description: 'How.' }),
    placardAt: t.string({
      required: true,
      description: 'Where the placard “Inoperative” is, 3 to 200 characters.',
    }),
    notTypeBasis: t.string({ required: true, description: 'Why it is not required by (d)(2)(i).' }),
    notListed: t.string({ required: true, description: 'Why it is not required by (d)(2)(ii).' }),
    notRuled: t.string({ required: true, description: 'Why it is not required by (d)(2)(iii).' }),
    notDirected: t.string({ required: true, description: 'Why it is not required by (d)(2)(iv).' }),
    noHazard: t.string({ required: true, description: 'Why it is no hazard: (d)(4).' }),
    itemId: t.id({ description: 'The work by which it was removed or deactivated.' }),
    ownList: t.boolean({
      required: true,
      description: 'Whether the aircraft flies by a minimum equipment list of its own.',
    }),
  }),
});

builder.mutationFields((t) => ({
  leaveInoperative: t.prismaField({
    type: 'Finding',
    errors: {},
    description:
      'Keeps that a qualified person found that equipment may stay inoperative (14 CFR 91.213(d)). For an inspector.',
    args: { input: t.arg({ type: LeaveInoperativeInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await leaveInoperative(context, {
        ...input,
        findingId: keyOf('Finding', input.findingId, 'findingId'),
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  withdrawInoperative: t.prismaField({
    type: 'Finding',
    errors: {},
    description: 'Takes that back: the finding stands as it did. For an inspector.',
    args: {
      findingId: t.arg.id({ required: true, description: 'The finding.' }),
      words: t.arg.string({ required: true, description: 'Why, 3 to 500 characters.' }),
    },
    resolve: async (query, _, { findingId, words }, context) => {
      const id = await withdrawInoperative(context, {
        ...{ findingId: keyOf('Finding', findingId, 'findingId'), words },
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
