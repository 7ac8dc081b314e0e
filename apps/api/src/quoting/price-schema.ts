import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addMarkUp } from './add-mark-up.ts';
import { addSuppliesRule } from './add-supplies-rule.ts';

const Band = builder.prismaObject('MarkUpBand', {
  description: 'What is put on a cost, from one cost of a unit up to the next band’s.',
  fields: (t) => ({
    costFrom: t.expose('costFrom', { type: 'Decimal', description: 'From this cost of one unit.' }),
    percent: t.expose('percent', { type: 'Decimal', description: 'Put on it, per cent.' }),
  }),
});

builder.prismaNode('MarkUpList', {
  id: { field: 'id' },
  description:
    'How the cost of parts without a price of their own is marked up, from a day on. Never changed.',
  fields: (t) => ({
    validFrom: t.expose('validFrom', { type: 'Date', description: 'From when it counts.' }),
    bands: t.field({
      type: [Band],
      description: 'By cost, the lowest first.',
      select: { bands: { orderBy: { costFrom: 'asc' } } },
      resolve: ({ bands }) => bands,
    }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said it.' }),
  }),
});

builder.prismaNode('SuppliesRule', {
  id: { field: 'id' },
  description:
    'Shop supplies as a share of the likely labour, up to a cap, from a day on. Never changed.',
  fields: (t) => ({
    percent: t.expose('percent', { type: 'Decimal', description: 'Of the labour, per cent.' }),
    cap: t.expose('capMinor', {
      type: 'Minor',
      nullable: true,
      description: 'No more than this, net; null: no cap.',
    }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'From when it counts.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was said.' }),
    by: t.relation('by', { description: 'Who said it.' }),
  }),
});

const newestFirst = [{ validFrom: 'desc' as const }, { id: 'desc' as const }];

builder.queryFields((t) => ({
  markUpLists: t.prismaField({
    type: ['MarkUpList'],
    description: "The shop's lists of mark-up bands, the newest first.",
    resolve: (query, _, __, { read }) =>
      read.markUpList.findMany({ ...query, orderBy: newestFirst }),
  }),
  suppliesRules: t.prismaField({
    type: ['SuppliesRule'],
    description: "The shop's rules for its supplies, the newest first.",
    resolve: (query, _, __, { read }) =>
      read.suppliesRule.findMany({ ...query, orderBy: newestFirst }),
  }),
}));

const BandInput = builder.inputType('MarkUpBandInput', {
  description: 'A band of cost.',
  fields: (t) => ({
    costFrom: t.field({
      type: 'Decimal',
      required: true,
      description: 'From this cost of one unit, 0 or more; one band begins at 0.',
    }),
    percent: t.field({
      type: 'Decimal',
      required: true,
      description: 'What is put on it, per cent, 0 to 1000.',
    }),
  }),
});
const AddMarkUpInput = builder.inputType('AddMarkUpInput', {
  description: 'Mark-up bands from a day on, all of them.',
  fields: (t) => ({
    validFrom: t.field({
      type: 'Date',
      required: true,
      description: 'Today or later, but for the first.',
    }),
    replacesId: t.id({
      description: 'The one of the same day that this one puts right, where there is one.',
    }),
    bands: t.field({ type: [BandInput], required: true, description: '1 to 30 bands.' }),
  }),
});
const AddSuppliesRuleInput = builder.inputType('AddSuppliesRuleInput', {
  description: 'What shop supplies come to from a day on.',
  fields: (t) => ({
    percent: t.field({
      type: 'Decimal',
      required: true,
      description: 'Of the likely labour, per cent, more than 0 to 100.',
    }),
    cap: t.field({ type: 'Minor', description: 'No more than this, net; left out: no cap.' }),
    validFrom: t.field({
      type: 'Date',
      required: true,
      description: 'Today or later, but for the first.',
    }),
    replacesId: t.id({
      description: 'The one of the same day that this one puts right, where there is one.',
    }),
  }),
});

builder.mutationFields((t) => ({
  addMarkUp: t.prismaField({
    type: 'MarkUpList',
    errors: {},
    description:
      'A new list of mark-up bands, from a day on; what was quoted keeps its own. For the manager.',
    args: { input: t.arg({ type: AddMarkUpInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addMarkUp(context, {
        ...input,
        replacesId: input.replacesId ? keyOf('MarkUpList', input.replacesId, 'replacesId') : null,
      });
      return context.read.markUpList.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addSuppliesRule: t.prismaField({
    type: 'SuppliesRule',
    errors: {},
    description:
      'A new rule for shop supplies, from a day on; what was quoted keeps its own. For the manager.',
    args: {
      input: t.arg({ type: AddSuppliesRuleInput, required: true, description: 'The rule.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addSuppliesRule(context, {
        ...input,
        cap: input.cap ?? null,
        replacesId: input.replacesId ? keyOf('SuppliesRule', input.replacesId, 'replacesId') : null,
      });
      return context.read.suppliesRule.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
