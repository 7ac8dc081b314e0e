import { OutcomeKind } from '@fairlead/database';
import { causeById, tables } from '@fairlead/diagnosis';
import { builder } from '../../builder.ts';
import { seenOf, sightingFacts } from './seen-of.ts';
import { suggestCauses } from './suggest-causes.ts';
import { SuggestionType } from './suggestion-types.ts';

builder.enumType(OutcomeKind, {
  name: 'OutcomeKind',
  description: 'How it is said what a finding turned out to be.',
  values: {
    listed: { description: 'A cause of those listed.' },
    other: { description: 'Another cause, in words.' },
    normal: { description: 'Nothing was wrong, for a reason in words.' },
  },
});

builder.prismaNode('FindingOutcome', {
  id: { field: 'id' },
  description: 'What a finding turned out to be. Never changed: the last word counts.',
  fields: (t) => ({
    symptom: t.exposeString('symptom', { description: 'What was noticed, by its id.' }),
    kind: t.expose('kind', { type: OutcomeKind, description: 'How it is said.' }),
    cause: t.exposeString('cause', {
      description: 'For one that is listed: its id in the tables; empty otherwise.',
    }),
    says: t.string({
      description: 'What it turned out to be, in words.',
      resolve: ({ symptom, cause, words }) => {
        const name = causeById(tables, symptom, cause)?.name ?? cause;
        return [name, words].filter(Boolean).join('. ');
      },
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said it.' }),
  }),
});

builder.prismaObjectFields('Finding', (t) => ({
  symptom: t.field({
    type: 'String',
    nullable: true,
    description: 'What was noticed, by its id; null where nobody said what they see.',
    select: sightingFacts,
    resolve: (finding) => seenOf(finding)?.symptom ?? null,
  }),
  suggestion: t.field({
    type: SuggestionType,
    nullable: true,
    description: 'What it may be; null where nobody said what they see. Computed when asked.',
    select: { id: true },
    complexity: 200,
    resolve: ({ id }, _, context) => suggestCauses(context, id),
  }),
  turnedOut: t.prismaField({
    type: 'FindingOutcome',
    nullable: true,
    description: 'What it turned out to be, by the last word; null until somebody says so.',
    select: { id: true },
    resolve: (query, { id }, _, { read }) =>
      read.findingOutcome.findFirst({
        ...query,
        where: { findingId: id },
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
      }),
  }),
}));
