import type { Prisma } from '@fairlead/database';
import { ChargeKind, Pricing, TaxCategory } from '@fairlead/database';
import type { Reason } from '@fairlead/labour';
import { builder } from '../builder.ts';
import { promiseForOffer } from '../hangar/index.ts';
import { PromiseType } from '../hangar/refs.ts';
import { globalId } from '../ids.ts';
import { EstimateReason } from './estimate-types.ts';
import { WithFindingsType } from './findings-types.ts';
import type { ForecastQuote } from './forecast-quote.ts';
import { withFindingsOf } from './likely-findings.ts';
import type { LineData } from './offered.ts';

type Kept =
  | Prisma.QuoteRevisionUncheckedCreateInput['hoursP10']
  | Prisma.QuoteLineUncheckedCreateInput['hoursP10'];
type HoursRow = Record<'hoursP10' | 'hoursP50' | 'hoursMean' | 'hoursP80' | 'hoursP90', Kept>;

/** Hours as they are kept in a quote. */
export const QuotedHours = builder.objectRef<HoursRow>('QuotedHours').implement({
  description: 'Hands-on hours, all people added, waiting excluded: a distribution.',
  fields: (t) => ({
    p10: t.float({
      description: 'One in ten is under this many hours.',
      resolve: ({ hoursP10 }) => Number(hoursP10),
    }),
    p50: t.float({
      description: 'As likely over as under.',
      resolve: ({ hoursP50 }) => Number(hoursP50),
    }),
    mean: t.float({
      description: 'The lognormal plug-in mean; of several tasks, the sum of theirs.',
      resolve: ({ hoursMean }) => Number(hoursMean),
    }),
    p80: t.float({
      description: 'Eight in ten are under this many hours.',
      resolve: ({ hoursP80 }) => Number(hoursP80),
    }),
    p90: t.float({
      description: 'Nine in ten are under this many hours.',
      resolve: ({ hoursP90 }) => Number(hoursP90),
    }),
  }),
});

const ForecastLine = builder.objectRef<LineData>('QuoteForecastLine').implement({
  description: 'A line that a draft would have.',
  fields: (t) => ({
    position: t.exposeInt('position', { description: 'Its place, from 1.' }),
    pricing: t.expose('pricing', { type: Pricing, description: 'How it would be sold.' }),
    title: t.exposeString('title', { description: 'What it is.' }),
    category: t.expose('category', { type: TaxCategory, description: 'What it is taxed with.' }),
    taskId: t.id({
      nullable: true,
      description: 'The work, where it is work.',
      resolve: ({ taskId }) => (taskId ? globalId('Task', taskId) : null),
    }),
    partId: t.id({
      nullable: true,
      description: 'The part, where it is one.',
      resolve: ({ partId }) => (partId ? globalId('Part', partId) : null),
    }),
    quantity: t.field({
      type: 'Decimal',
      description: 'Units of the part, or 1.',
      resolve: ({ quantity }) => String(quantity),
    }),
    unitPrice: t.field({
      type: 'Decimal',
      description: 'Price of one unit; of one hour, where hours are sold.',
      resolve: ({ unitPrice }) => String(unitPrice),
    }),
    low: t.field({
      type: 'Minor',
      description: 'One in ten comes out under this.',
      resolve: ({ lowMinor }) => BigInt(lowMinor),
    }),
    likely: t.field({
      type: 'Minor',
      description: 'As likely over as under.',
      resolve: ({ likelyMinor }) => BigInt(likelyMinor),
    }),
    p80: t.field({
      type: 'Minor',
      description: 'Eight in ten come out under this.',
      resolve: ({ p80Minor }) => BigInt(p80Minor),
    }),
    high: t.field({
      type: 'Minor',
      description: 'Nine in ten come out under this.',
      resolve: ({ highMinor }) => BigInt(highMinor),
    }),
    charge: t.field({
      type: ChargeKind,
      nullable: true,
      description: 'What is charged, where it is neither work nor a part.',
      resolve: ({ charge }) => charge ?? null,
    }),
    limit: t.field({
      type: 'Minor',
      nullable: true,
      description: 'Net: what is not to be exceeded; null where nothing is said of that.',
      resolve: ({ limitMinor }) => (limitMinor == null ? null : BigInt(limitMinor)),
    }),
    hours: t.field({
      type: QuotedHours,
      nullable: true,
      description: 'Hands-on hours; null where the line is no work.',
      resolve: (line) => (line.hoursP50 == null ? null : (line as HoursRow)),
    }),
    jobs: t.int({
      nullable: true,
      description: 'Like jobs behind the hours.',
      resolve: ({ jobs }) => jobs ?? null,
    }),
    because: t.field({
      type: [EstimateReason],
      description: 'Why the hours are what they are.',
      resolve: ({ because }) => (Array.isArray(because) ? (because as unknown as Reason[]) : []),
    }),
  }),
});

/** What a draft would say. */
export const QuoteForecast = builder.objectRef<ForecastQuote>('QuoteForecast').implement({
  description: 'What a draft of these lines would say today. Nothing is kept.',
  fields: (t) => ({
    currency: t.string({
      description: 'ISO 4217 code of its amounts.',
      resolve: ({ figures }) => figures.currency,
    }),
    low: t.field({
      type: 'Minor',
      description: 'One in ten comes out under this, net.',
      resolve: ({ figures }) => BigInt(figures.lowMinor),
    }),
    likely: t.field({
      type: 'Minor',
      description: 'As likely over as under, net; what is firm counts in full.',
      resolve: ({ figures }) => BigInt(figures.likelyMinor),
    }),
    p80: t.field({
      type: 'Minor',
      description: 'Eight in ten come out under this, net.',
      resolve: ({ figures }) => BigInt(figures.p80Minor),
    }),
    high: t.field({
      type: 'Minor',
      description: 'Nine in ten should come out under this, net.',
      resolve: ({ figures }) => BigInt(figures.highMinor),
    }),
    tax: t.field({
      type: 'Minor',
      description: "Tax on the likely amount, by the shop's own table.",
      resolve: ({ figures }) => BigInt(figures.taxMinor),
    }),
    hours: t.field({
      type: QuotedHours,
      description: 'Hands-on hours of all its tasks together.',
      resolve: ({ figures }) => figures,
    }),
    billedAs: t.exposeString('billedAs', {
      description: 'By which rule for billed time its amounts are foretold.',
    }),
    withFindings: t.field({
      type: WithFindingsType,
      nullable: true,
      description: 'With what is likely to be found; null where nothing is.',
      resolve: ({ figures }) => withFindingsOf(figures.withFindings),
    }),
    promise: t.field({
      type: PromiseType,
      description: 'When the aircraft would be ready, if this were accepted now.',
      resolve: async ({ toPromise }, _, { read, now }) => {
        const madeAt = now();
        return { ...(await promiseForOffer(read, toPromise, madeAt)), madeAt };
      },
    }),
    lines: t.field({
      type: [ForecastLine],
      description: 'What would be offered, in order.',
      resolve: ({ lines }) => lines,
    }),
  }),
});
