import { ChargeKind, Pricing, TaxCategory } from '@fairlead/database';
import type { Reason } from '@fairlead/labour';
import { builder } from '../builder.ts';
import type { Context } from '../context.ts';
import { EstimateReason } from './estimate-types.ts';
import { QuotedHours } from './forecast-types.ts';
import { pricedByWords } from './priced-by.ts';

builder.enumType(Pricing, {
  name: 'Pricing',
  description:
    'How a line is sold: at a fixed price, by time and materials, or by time and materials up to a limit that the shop keeps.',
  values: {
    fixed: { description: 'One price, whatever the work takes.' },
    time_and_materials: { description: 'The hours that it takes at a rate, and the parts.' },
    not_to_exceed: {
      description: 'By time and materials up to a limit; what goes past it is carried by the shop.',
    },
  },
});
builder.enumType(ChargeKind, {
  name: 'ChargeKind',
  description: 'What is charged besides work and parts.',
  values: {
    outside_work: { description: 'Work that another shop does.' },
    freight: { description: 'Carrying things here and back.' },
    disposal: { description: 'Getting rid of oil, solvent and the like.' },
    call_out: { description: 'Going to where the aircraft stands.' },
    supplies: { description: 'Rags, safety wire, solvents: what nobody counts.' },
    other: { description: 'Anything else.' },
    core: {
      description:
        'The core of a part: charged until the old one comes back. It follows its part; nobody names it.',
    },
  },
});
const seesCosts = async ({ roles }: Context) =>
  (await roles()).some((role) => role === 'front_desk' || role === 'manager');

builder.prismaNode('QuoteLine', {
  id: { field: 'id' },
  description:
    'A line of a quote. A flat price is one line without a task, followed by its tasks at 0, whose hours are kept.',
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place in the quote, from 1.' }),
    pricing: t.expose('pricing', { type: Pricing, description: 'How it is sold.' }),
    title: t.exposeString('title', { description: 'What it is.' }),
    category: t.expose('category', { type: TaxCategory, description: 'What it is taxed with.' }),
    taxRate: t.expose('taxRate', { type: 'Decimal', description: 'Tax on it, per cent.' }),
    task: t.relation('task', { nullable: true, description: 'The work, where it is work.' }),
    part: t.relation('part', { nullable: true, description: 'The part, where it is one.' }),
    access: t.relation('access', {
      nullable: true,
      description: 'The place as it was planned for.',
    }),
    quantity: t.expose('quantity', { type: 'Decimal', description: 'Units of the part, or 1.' }),
    unitPrice: t.expose('unitPrice', {
      type: 'Decimal',
      description: 'Price of one unit; of one hour, where hours are sold.',
    }),
    low: t.expose('lowMinor', { type: 'Minor', description: 'One in ten comes out under this.' }),
    likely: t.expose('likelyMinor', { type: 'Minor', description: 'As likely over as under.' }),
    p80: t.expose('p80Minor', { type: 'Minor', description: 'Eight in ten come out under this.' }),
    high: t.expose('highMinor', { type: 'Minor', description: 'Nine in ten come out under this.' }),
    limit: t.expose('limitMinor', {
      type: 'Minor',
      nullable: true,
      description: 'Net: what is not to be exceeded; null where nothing is said of that.',
    }),
    charge: t.expose('charge', {
      type: ChargeKind,
      nullable: true,
      description: 'What is charged, where it is neither work nor a part.',
    }),
    cost: t.field({
      type: 'Minor',
      nullable: true,
      description:
        'Of a charge: what it costs the shop, net, where that was said. For the front desk and the manager; null for others.',
      resolve: async ({ costMinor }, _, context) => ((await seesCosts(context)) ? costMinor : null),
    }),
    percent: t.field({
      type: 'Decimal',
      nullable: true,
      description:
        'Of a charge: mark-up on its cost, or share of the likely labour, per cent. For the front desk and the manager; null for others.',
      resolve: async ({ percent }, _, context) => ((await seesCosts(context)) ? percent : null),
    }),
    cap: t.expose('capMinor', {
      type: 'Minor',
      nullable: true,
      description: 'Of shop supplies: no more than this, net; null: no cap.',
    }),
    corePart: t.relation('corePart', {
      nullable: true,
      description: 'Of a core: the part that it is owed for.',
    }),
    workKind: t.exposeString('workKind', {
      description: 'At the rate of which kind of work its hours are; nothing: the general one.',
    }),
    pricedFrom: t.expose('pricedFrom', {
      type: 'Date',
      nullable: true,
      description:
        'From when the rate, price, band or rule holds that it was priced by; null: its first price, or somebody named it.',
    }),
    pricedBy: t.string({
      nullable: true,
      description:
        'By which rate, price, band or rule it was priced, in words. For the front desk and the manager; null for others, and where somebody named the price.',
      select: {
        ...{ charge: true, partId: true, hoursP50: true, pricing: true, pricedFrom: true },
        ...{ workKind: true, unitCost: true, percent: true, capMinor: true },
        revision: { select: { currency: true } },
      },
      resolve: async (line, _, context) =>
        (await seesCosts(context)) ? pricedByWords(line, line.revision.currency) : null,
    }),
    taxCode: t.exposeString('taxCode', { description: 'Category of tax by EN 16931.' }),
    taxReason: t.exposeString('taxReason', {
      description: 'Why it is exempt from tax, where an exemption says so; else nothing.',
    }),
    hours: t.field({
      type: QuotedHours,
      nullable: true,
      description: 'Hands-on hours; null where the line is no work.',
      resolve: (line) => (line.hoursP50 === null ? null : line),
    }),
    jobs: t.exposeInt('jobs', { nullable: true, description: 'Like jobs behind the hours.' }),
    because: t.field({
      type: [EstimateReason],
      description: 'Why the hours are what they are, as it was said when it was drafted.',
      resolve: ({ because }) => (Array.isArray(because) ? (because as unknown as Reason[]) : []),
    }),
    modelVersion: t.exposeString('modelVersion', {
      nullable: true,
      description: 'Which version of the labour model said so.',
    }),
  }),
});
