import {
  type Coverage,
  type CoveredMonth,
  coverageSentence,
  type Ratio,
  type Verdict,
} from '@fairlead/labour';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import type { ComparedRow, ComparedWords } from './compared-items.ts';

export const VerdictEnum = builder.enumType('CoverageVerdict', {
  description: 'Whether quoted ranges hold what they promise.',
  values: {
    too_few: { description: 'So few items say little.' },
    agrees: { description: 'Eight in ten lies within what the count leaves open.' },
    too_narrow: { description: 'Fewer come out within than chance explains.' },
    too_wide: { description: 'More come out within than chance explains.' },
  } satisfies Record<Verdict, { description: string }>,
});

export const CoverageType = builder.objectRef<Coverage>('Coverage').implement({
  description:
    'How many clocked hours came out between the quoted P10 and P90, as eight in ten should.',
  fields: (t) => ({
    items: t.exposeInt('items', { description: 'Finished items that had been quoted with hours.' }),
    within: t.exposeInt('within', { description: 'From P10 to P90, both included.' }),
    under: t.exposeInt('under', { description: 'Took less than P10.' }),
    over: t.exposeInt('over', { description: 'Took longer than P90.' }),
    low: t.float({
      description: 'Lower end of the share in the long run: 95 % Wilson interval, 0 to 1.',
      resolve: ({ interval }) => interval.low,
    }),
    high: t.float({
      description: 'Upper end of the share in the long run: 95 % Wilson interval, 0 to 1.',
      resolve: ({ interval }) => interval.high,
    }),
    verdict: t.expose('verdict', { type: VerdictEnum, description: 'What may be said of it.' }),
    sentence: t.string({ description: 'All of it in words.', resolve: coverageSentence }),
  }),
});

export const RatioType = builder.objectRef<Ratio>('HoursRatio').implement({
  description: 'Clocked hours over the quoted P50: 1 as quoted, 1.2 a fifth more.',
  fields: (t) => ({
    median: t.exposeFloat('median', { description: 'Half of the items lie under it.' }),
    low: t.exposeFloat('low', { description: 'A quarter of the items lies under it.' }),
    high: t.exposeFloat('high', { description: 'A quarter of the items lies over it.' }),
  }),
});

export const CoveredMonthType = builder.objectRef<CoveredMonth>('CoveredMonth').implement({
  description: 'The items finished in one month.',
  fields: (t) => ({
    month: t.exposeString('month', { description: 'Year and month: 2026-03.' }),
    coverage: t.field({
      type: CoverageType,
      nullable: true,
      description: 'How their ranges held; null where none was finished.',
      resolve: ({ coverage }) => coverage,
    }),
  }),
});

export interface NamedGroup {
  key: string;
  name: string;
  coverage: Coverage;
  ratio: Ratio;
}

export const CoveredGroupType = builder.objectRef<NamedGroup>('CoveredGroup').implement({
  description: 'The items of one task, or on one model.',
  fields: (t) => ({
    key: t.exposeString('key', { description: 'What to ask for to see these alone.' }),
    name: t.exposeString('name', { description: 'What it is called.' }),
    coverage: t.expose('coverage', { type: CoverageType, description: 'How their ranges held.' }),
    ratio: t.expose('ratio', { type: RatioType, description: 'How clocked compares with quoted.' }),
  }),
});

export const ComparedPointType = builder.objectRef<ComparedRow>('ComparedPoint').implement({
  description:
    'A finished item on log paper: what was quoted and what was clocked, hands-on hours.',
  fields: (t) => ({
    p10: t.exposeFloat('p10', { description: 'Quoted: one in ten is under this.' }),
    p50: t.exposeFloat('p50', { description: 'Quoted: as likely over as under.' }),
    p90: t.exposeFloat('p90', { description: 'Quoted: nine in ten are under this.' }),
    actual: t.exposeFloat('actual', { description: 'Clocked, all people added.' }),
  }),
});

export type Miss = ComparedRow & ComparedWords;

export const MissType = builder.objectRef<Miss>('ComparedItem').implement({
  description:
    'A finished item with what was quoted, what was clocked, and why, where somebody said.',
  fields: (t) => ({
    itemId: t.id({
      description: 'The work item.',
      resolve: ({ itemId }) => globalId('WorkItem', itemId),
    }),
    orderId: t.id({
      description: 'Its order.',
      resolve: ({ orderId }) => globalId('WorkOrder', orderId),
    }),
    title: t.exposeString('title', { description: 'What was done.' }),
    orderNumber: t.exposeInt('orderNumber', { description: 'Number of its order.' }),
    registration: t.exposeString('registration', { description: 'On which aircraft.' }),
    model: t.exposeString('model', { description: 'Of which model.' }),
    doneAt: t.expose('doneAt', { type: 'DateTime', description: 'When it was finished.' }),
    p10: t.exposeFloat('p10', { description: 'Quoted: one in ten is under this many hours.' }),
    p50: t.exposeFloat('p50', { description: 'Quoted: as likely over as under.' }),
    p80: t.exposeFloat('p80', { description: 'Quoted: eight in ten are under this many hours.' }),
    p90: t.exposeFloat('p90', { description: 'Quoted: nine in ten are under this many hours.' }),
    actual: t.exposeFloat('actual', { description: 'Clocked, all people added.' }),
    reason: t.exposeString('reason', {
      description: 'Why, where somebody wrote it down; else empty.',
    }),
  }),
});
