import { type Accuracy, accuracyOf, biggestMissesFirst, type CoveredGroup } from '@fairlead/labour';
import { resolveOffsetConnection } from '@pothos/plugin-relay';
import { builder } from '../builder.ts';
import { type AccuracyAsked, itemsAsked } from './accuracy-asked.ts';
import {
  ComparedPointType,
  CoverageType,
  CoveredGroupType,
  CoveredMonthType,
  type Miss,
  MissType,
  type NamedGroup,
  RatioType,
} from './accuracy-types.ts';
import { type ComparedRow, comparedItems, comparedWords, MOST_COMPARED } from './compared-items.ts';

const MOST_POINTS = 400;
const NO_TASK = 'Correction of a finding, no task';

interface Found {
  every: readonly ComparedRow[];
  asked: readonly ComparedRow[];
  accuracy: Accuracy;
}

/** What a filter can be set to. */
const AccuracyChoice = builder
  .objectRef<{ key: string; name: string }>('AccuracyChoice')
  .implement({
    description: 'One thing that the comparison can be narrowed to.',
    fields: (t) => ({
      key: t.exposeString('key', { description: 'What to ask for.' }),
      name: t.exposeString('name', { description: 'What it is called.' }),
    }),
  });

function choices<Row>(rows: readonly Row[], of: (row: Row) => { key: string; name: string }) {
  const known = new Map(rows.map((row) => [of(row).key, of(row)]));
  return [...known.values()].sort((a, b) => a.name.localeCompare(b.name, 'en'));
}

const taskChoice = ({ task, taskTitle }: ComparedRow) => ({
  key: task,
  name: taskTitle === '' ? NO_TASK : taskTitle,
});

const named = (
  groups: readonly CoveredGroup[],
  names: readonly { key: string; name: string }[],
) => {
  const byKey = new Map(names.map(({ key, name }) => [key, name]));
  return groups.map((group): NamedGroup => ({ ...group, name: byKey.get(group.key) ?? group.key }));
};

const AccuracyType = builder.objectRef<Found>('HoursAccuracy').implement({
  description: 'How the hours that were quoted did against the clock.',
  fields: (t) => ({
    coverage: t.field({
      type: CoverageType,
      nullable: true,
      description: 'All of them together; null where nothing is compared.',
      resolve: ({ accuracy }) => accuracy.coverage,
    }),
    ratio: t.field({
      type: RatioType,
      nullable: true,
      description: 'Clocked over quoted; null where nothing is compared.',
      resolve: ({ accuracy }) => accuracy.ratio,
    }),
    months: t.field({
      type: [CoveredMonthType],
      description:
        'Every month from the first to the last, also those in which nothing was finished.',
      resolve: ({ accuracy }) => [...accuracy.months],
    }),
    byTask: t.field({
      type: [CoveredGroupType],
      description: 'By task, the most items first.',
      resolve: ({ accuracy, asked }) => named(accuracy.byTask, choices(asked, taskChoice)),
    }),
    byModel: t.field({
      type: [CoveredGroupType],
      description: 'By model, the most items first.',
      resolve: ({ accuracy }) => named(accuracy.byModel, []),
    }),
    points: t.field({
      type: [ComparedPointType],
      description: `For the drawing: the newest, at most ${MOST_POINTS}.`,
      resolve: ({ asked }) => asked.slice(0, MOST_POINTS),
    }),
    misses: t.connection({
      type: MissType,
      description:
        'The biggest misses first: by hours outside of P10 to P90, then by hours from P50.',
      resolve: ({ asked }, args, { read }) =>
        resolveOffsetConnection(
          { args, defaultSize: 12, maxSize: 200 },
          async ({ limit, offset }) => {
            const some = biggestMissesFirst(asked).slice(offset, offset + limit);
            const words = await comparedWords(
              read,
              some.map(({ itemId }) => itemId),
            );
            const byItem = new Map(words.map((each) => [each.itemId, each]));
            return some.flatMap((row): Miss[] => {
              const said = byItem.get(row.itemId);
              return said ? [{ ...row, ...said }] : [];
            });
          },
        ),
    }),
    tasks: t.field({
      type: [AccuracyChoice],
      description: 'Tasks with something to compare, whatever is asked for.',
      resolve: ({ every }) => choices(every, taskChoice),
    }),
    models: t.field({
      type: [AccuracyChoice],
      description: 'Models with something to compare, whatever is asked for.',
      resolve: ({ every }) => choices(every, ({ model }) => ({ key: model, name: model })),
    }),
    everyMonth: t.stringList({
      description: 'Months with something to compare, whatever is asked for, oldest first.',
      resolve: ({ every }) => [...new Set(every.map(({ month }) => month))].sort(),
    }),
  }),
});

const AccuracyFilter = builder.inputType('AccuracyFilter', {
  description: 'Which items to compare; what is left out is no condition.',
  fields: (t) => ({
    task: t.string({ description: 'Short name of a task; empty for items without one.' }),
    model: t.string({ description: 'Maker and name of a model.' }),
    from: t.string({ description: 'First month: 2026-03.' }),
    to: t.string({ description: 'Last month: 2026-03.' }),
  }),
});

builder.queryField('hoursAccuracy', (t) =>
  t.field({
    type: AccuracyType,
    description: `Estimates against the clock, of the newest ${MOST_COMPARED} finished items that had been quoted with hours.`,
    args: { filter: t.arg({ type: AccuracyFilter, description: 'Which of them.' }) },
    resolve: async (_, { filter }, { read }): Promise<Found> => {
      const asked: AccuracyAsked = filter ?? {};
      itemsAsked([], asked); // a wrong filter is refused before anything is read
      const every = await comparedItems(read);
      const items = itemsAsked(every, asked);
      return { every, asked: items, accuracy: accuracyOf(items) };
    },
  }),
);
