import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { askBacktest, BACKTEST_EVERY_MINUTES, runStandsStill } from './ask-backtest.ts';
import { MOST_SLICES } from './backtest-kept.ts';
import { BacktestMonthType, BacktestScoreType, BacktestSliceType } from './honest-types.ts';
import {
  backtestRun,
  everyMonth,
  type NewestBacktest,
  newestBacktest,
  type RunRow,
} from './read-backtest.ts';

const RunState = builder.enumType('BacktestRunState', {
  description: 'Where a back-test stands that was asked for.',
  values: {
    waiting: { description: 'It begins when it is due and the worker is free.' },
    running: { description: 'It is being computed.' },
    failed: { description: 'It failed for good; its problem says so.' },
  },
});

const RunType = builder.objectRef<RunRow>('BacktestRun').implement({
  description: 'A back-test that waits or is being computed.',
  fields: (t) => ({
    state: t.field({
      type: RunState,
      description: 'Where it stands.',
      resolve: ({ problem, startedAt }) => (problem ? 'failed' : startedAt ? 'running' : 'waiting'),
    }),
    askedAt: t.expose('askedAt', { type: 'DateTime', description: 'When it was asked for.' }),
    askedBy: t.string({
      nullable: true,
      description: 'By whom; null: by the program, after a fit.',
      resolve: ({ askedBy }) => askedBy?.name ?? null,
    }),
    dueAt: t.expose('dueAt', { type: 'DateTime', description: 'When it may begin.' }),
    monthsDone: t.exposeInt('monthsDone', { description: 'Months of history that are behind it.' }),
    monthsAll: t.exposeInt('monthsAll', { description: 'Of how many; 0 before it began.' }),
    standsStill: t.boolean({
      description: 'It runs, but has not moved for minutes: it may be asked for again.',
      resolve: (run, _, { now }) => runStandsStill(run, now()),
    }),
    problem: t.exposeString('problem', { description: 'Why it failed; else empty.' }),
  }),
});

const BacktestType = builder.objectRef<NewestBacktest>('HoursBacktest').implement({
  description:
    'A rolling back-test: at each month’s start fitted on what was known, the month predicted, and compared.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Counted from 1.' }),
    modelNumber: t.exposeInt('modelNumber', {
      description: 'The fitted model that was in force when it was computed; 0: none yet.',
    }),
    computedAt: t.expose('computedAt', { type: 'DateTime', description: 'When.' }),
    askedBy: t.string({
      nullable: true,
      description: 'Who asked for it; null: the program, after a fit.',
      resolve: ({ askedBy }) => askedBy?.name ?? null,
    }),
    ms: t.exposeInt('ms', { description: 'How long it took, milliseconds.' }),
    history: t.exposeInt('items', { description: 'Past items that were there.' }),
    score: t.field({
      type: BacktestScoreType,
      description: 'All predicted jobs together.',
      resolve: ({ kept }) => kept.score,
    }),
    months: t.field({
      type: [BacktestMonthType],
      description: 'Every month from the first predicted one to the last.',
      resolve: ({ kept }) => everyMonth(kept.months),
    }),
    byTask: t.field({
      type: [BacktestSliceType],
      description: `By task, the most jobs first; at most ${MOST_SLICES}.`,
      resolve: async ({ kept }, _, { read }) => {
        const tasks = await read.task.findMany({
          where: { key: { in: kept.byTask.map(({ key }) => key) } },
          select: { key: true, title: true },
        });
        const titles = new Map(tasks.map(({ key, title }) => [key, title]));
        return kept.byTask.map(({ key, ...score }) => ({
          key,
          name: titles.get(key) ?? key,
          score,
        }));
      },
    }),
    byModel: t.field({
      type: [BacktestSliceType],
      description: `By model, the most jobs first; at most ${MOST_SLICES}.`,
      resolve: ({ kept }) => kept.byModel.map(({ key, ...score }) => ({ key, name: key, score })),
    }),
    tooLittle: t.string({
      nullable: true,
      description: 'What is missing, where no job could be predicted; else null.',
      resolve: ({ scored, items }) =>
        scored > 0
          ? null
          : `${items === 1 ? '1 past job is' : `${items} past jobs are`} known: needed are 20 in the months before the one that is predicted, and three such months.`,
    }),
  }),
});

const MechanicsType = builder
  .objectRef<{ slices: NewestBacktest['kept']['byMechanic'] }>('BacktestByMechanic')
  .implement({
    description: 'How jobs were predicted, by who did them: for planning, not a mark.',
    fields: (t) => ({
      slices: t.field({
        type: [BacktestSliceType],
        description: `The most jobs first; at most ${MOST_SLICES}. A job of several people counts for each.`,
        resolve: ({ slices }) => slices.map(({ key, ...score }) => ({ key, name: key, score })),
      }),
    }),
  });

const Honesty = builder.objectRef<Record<string, never>>('HoursHonesty').implement({
  description: 'Whether the shop’s estimates are honest.',
  fields: (t) => ({
    newest: t.field({
      type: BacktestType,
      nullable: true,
      description: 'The newest back-test; null before the first.',
      resolve: (_, __, { read }) => newestBacktest(read),
    }),
    run: t.field({
      type: RunType,
      nullable: true,
      description: `One that waits or is being computed; null for none. After a fit it is asked for by itself, at most once in ${BACKTEST_EVERY_MINUTES / 60} hours.`,
      resolve: (_, __, { read }) => backtestRun(read),
    }),
  }),
});

builder.queryFields((t) => ({
  hoursHonesty: t.field({
    type: Honesty,
    description: 'How the model would have done on the shop’s own past, beside five plain rules.',
    resolve: () => ({}),
  }),
  hoursByMechanic: t.field({
    type: MechanicsType,
    errors: {},
    description: 'The same by mechanic: for planning, not for blame, and for the manager alone.',
    resolve: async (_, __, context) => {
      await allow(context, 'manager');
      return { slices: (await newestBacktest(context.read))?.kept.byMechanic ?? [] };
    },
  }),
}));

builder.mutationField('askBacktest', (t) =>
  t.field({
    type: Honesty,
    errors: {},
    description: 'Has the back-test computed anew at once. For the manager.',
    resolve: async (_, __, context) => {
      await askBacktest(context);
      return {};
    },
  }),
);
