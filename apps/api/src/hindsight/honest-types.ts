import {
  coverageSentence,
  coverageVerdict,
  type ForecastScore,
  type Interval,
  type MonthScore,
  type Rival,
  type RivalScore,
  type Verdict,
  wilsonInterval,
} from '@fairlead/labour';
import { builder } from '../builder.ts';
import { VerdictEnum } from './accuracy-types.ts';

export const RIVAL_WORDS: Record<Rival, string> = {
  standard: 'the standard time',
  mean: 'the mean of past times',
  last: 'the last time',
  median: 'the median of past times',
  'own quantiles': 'the plain quantiles of past times',
};

interface Held {
  items: number;
  within: number;
  interval: Interval;
  verdict: Verdict;
  sentence: string;
}

/** How ranges held; null for none. */
function heldOf(items: number, within: number, over: number): Held | null {
  if (items === 0) return null;
  const interval = wilsonInterval(within, items);
  const verdict = coverageVerdict(interval, items);
  const under = items - within - over;
  const sentence = coverageSentence({ items, within, under, over, interval, verdict });
  return {
    items,
    within,
    interval,
    verdict,
    sentence: sentence.replace('ranges quoted', 'ranges'),
  };
}

const heldIn = ({ items, coverage, pit }: ForecastScore): Held | null => {
  const within = Math.round((coverage ?? 0) * items);
  return heldOf(items, within, Math.min(pit.at(-1) ?? 0, items - within));
};

const HeldType = builder.objectRef<Held>('BacktestCoverage').implement({
  description:
    'How many clocked hours came out between the predicted P10 and P90, as eight in ten should.',
  fields: (t) => ({
    items: t.exposeInt('items', { description: 'Jobs that were predicted.' }),
    within: t.exposeInt('within', { description: 'From P10 to P90, both included.' }),
    low: t.float({
      description: 'Lower end of the share in the long run: 95 % Wilson interval, 0 to 1.',
      resolve: ({ interval }) => interval.low,
    }),
    high: t.float({
      description: 'Upper end of the share in the long run: 95 % Wilson interval, 0 to 1.',
      resolve: ({ interval }) => interval.high,
    }),
    verdict: t.expose('verdict', { type: VerdictEnum, description: 'What may be said of it.' }),
    sentence: t.exposeString('sentence', { description: 'All of it in words.' }),
  }),
});

export const BacktestMonthType = builder.objectRef<MonthScore>('BacktestMonth').implement({
  description: 'One month, predicted from what was known at its start.',
  fields: (t) => ({
    month: t.exposeString('month', { description: 'Year and month: 2026-03.' }),
    coverage: t.field({
      type: HeldType,
      nullable: true,
      description: 'How the ranges held; null where nothing was finished.',
      resolve: ({ items, within }) => heldOf(items, within, 0),
    }),
    loss80: t.float({
      nullable: true,
      description: 'Mean pinball loss of the P80, hours; null where nothing was finished.',
      resolve: ({ items, pinball80 }) => (items === 0 ? null : pinball80),
    }),
  }),
});

const LossesType = builder.objectRef<RivalScore['model']>('PinballLosses').implement({
  description: 'Mean pinball losses, hours: what the stated quantiles cost. Smaller is better.',
  fields: (t) => ({
    p50: t.exposeFloat('p50', { description: 'Of the P50.' }),
    p80: t.exposeFloat('p80', { description: 'Of the P80.' }),
    p90: t.exposeFloat('p90', { description: 'Of the P90.' }),
  }),
});

/** Of fewer the interval of the difference is itself a guess (common practice, no source). */
const FEWEST_COMPARED = 10;
type Standing = 'model_better' | 'even' | 'rival_better' | 'too_few';
const standingOf = ({ items, difference80 }: RivalScore): Standing => {
  if (items < FEWEST_COMPARED) return 'too_few';
  if (difference80.from > 0) return 'rival_better';
  return difference80.to < 0 ? 'model_better' : 'even';
};
const StandingEnum = builder.enumType('RivalStanding', {
  description: 'Who does better, by the loss of the P80.',
  values: {
    model_better: {
      description: 'The model: the whole 95 % interval of the difference is on its side.',
    },
    even: { description: 'They cannot be told apart yet.' },
    rival_better: {
      description: 'The rival: the whole 95 % interval of the difference is on its side.',
    },
    too_few: {
      description: `The rival had something to say about fewer than ${FEWEST_COMPARED} jobs.`,
    },
  } satisfies Record<Standing, { description: string }>,
});

const RivalType = builder.objectRef<RivalScore>('RivalScore').implement({
  description: 'A plain rule beside the model, on the jobs about which it had anything to say.',
  fields: (t) => ({
    name: t.string({ description: 'What it is.', resolve: ({ rival }) => RIVAL_WORDS[rival] }),
    items: t.exposeInt('items', { description: 'Jobs that it could predict.' }),
    coverage: t.float({
      nullable: true,
      description: 'Share of them between its P10 and P90, 0 to 1; null for none.',
      resolve: ({ coverage }) => coverage ?? null,
    }),
    loss: t.field({
      type: LossesType,
      description: 'Its losses.',
      resolve: ({ pinball }) => pinball,
    }),
    modelLoss: t.field({
      type: LossesType,
      description: 'The model’s losses on the same jobs.',
      resolve: ({ model }) => model,
    }),
    crps: t.float({
      nullable: true,
      description:
        'Its mean continuous ranked probability score, hours: what the whole forecast cost; null for no jobs, and in a back-test from before it was scored.',
      resolve: ({ crps }) => crps ?? null,
    }),
    modelCrps: t.float({
      nullable: true,
      description: 'The model’s on the same jobs; null likewise.',
      resolve: ({ modelCrps }) => modelCrps ?? null,
    }),
    tenths: t.floatList({
      nullable: true,
      description:
        'Jobs in each tenth of its forecast, the shortest first. A job that took as long as several past ones is spread over their tenths, one on a border is halved. Null for no jobs, and in a back-test from before it was scored.',
      resolve: ({ pit }) => (pit ? [...pit] : null),
    }),
    difference: t.float({
      description:
        'Mean of the model’s loss of the P80 less the rival’s, hours: below 0 the model is better.',
      resolve: ({ difference80 }) => difference80.mean,
    }),
    differenceFrom: t.float({
      description: 'Lower end of its 95 % interval.',
      resolve: ({ difference80 }) => difference80.from,
    }),
    differenceTo: t.float({
      description: 'Upper end of its 95 % interval.',
      resolve: ({ difference80 }) => difference80.to,
    }),
    standing: t.field({ type: StandingEnum, description: 'Who does better.', resolve: standingOf }),
  }),
});

/** A count in tenths that chance alone would leave between these, 19 times in 20 (normal approximation). */
const byChance = (items: number) => {
  const reach = 1.959963984540054 * Math.sqrt(items * 0.1 * 0.9);
  return { low: Math.max(0, items / 10 - reach), high: items / 10 + reach };
};

/** The verdict with the rivals in words. */
export const verdictWords = (verdict: string) =>
  Object.entries(RIVAL_WORDS).reduce(
    (said, [rival, words]) => said.replace(`"${rival}"`, words),
    verdict,
  );

export const BacktestScoreType = builder.objectRef<ForecastScore>('BacktestScore').implement({
  description: 'What predictions cost, and how honest their ranges were.',
  fields: (t) => ({
    items: t.exposeInt('items', { description: 'Jobs that were predicted.' }),
    coverage: t.field({
      type: HeldType,
      nullable: true,
      description: 'How the ranges held; null for no jobs.',
      resolve: heldIn,
    }),
    loss: t.field({
      type: LossesType,
      description: 'What its quantiles cost.',
      resolve: ({ pinball }) => pinball,
    }),
    crps: t.float({
      nullable: true,
      description:
        'Mean continuous ranked probability score, hours: what the whole forecast cost; null for no jobs.',
      resolve: ({ crps }) => crps ?? null,
    }),
    under80: t.float({
      nullable: true,
      description: 'Share that came out under P80, 0 to 1; null for no jobs.',
      resolve: ({ under80 }) => under80 ?? null,
    }),
    under90: t.float({
      nullable: true,
      description: 'Share that came out under P90, 0 to 1; null for no jobs.',
      resolve: ({ under90 }) => under90 ?? null,
    }),
    tenths: t.intList({
      description:
        'Jobs in each tenth of their own forecast, the shortest first: even when honest.',
      resolve: ({ pit }) => [...pit],
    }),
    tenthsLow: t.float({
      description: 'By chance alone a tenth holds hardly fewer, 19 times in 20.',
      resolve: ({ items }) => byChance(items).low,
    }),
    tenthsHigh: t.float({
      description: 'By chance alone a tenth holds hardly more, 19 times in 20.',
      resolve: ({ items }) => byChance(items).high,
    }),
    rivals: t.field({
      type: [RivalType],
      description: 'Five plain rules beside it.',
      resolve: ({ rivals }) => [...rivals],
    }),
    verdict: t.string({
      description: 'In one sentence; where a rival does better, it says so.',
      resolve: ({ verdict }) => verdictWords(verdict),
    }),
  }),
});

export interface NamedSlice {
  key: string;
  name: string;
  score: ForecastScore;
}

export const BacktestSliceType = builder.objectRef<NamedSlice>('BacktestSlice').implement({
  description: 'The jobs of one task, of one model, or of one mechanic.',
  fields: (t) => ({
    key: t.exposeString('key', { description: 'The task’s short name, the model, or who.' }),
    name: t.exposeString('name', { description: 'What it is called.' }),
    score: t.expose('score', { type: BacktestScoreType, description: 'How it was predicted.' }),
  }),
});
