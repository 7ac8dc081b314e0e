import type { Tx } from '@fairlead/database';
import { type AccessPriors, accessPosterior } from '@fairlead/labour';
import { builder } from '../builder.ts';
import { changesBetween, OWN_TABLE, SOURCES } from './access-table.ts';
import { FittedModelType, fittedModel } from './fitted-model.ts';
import { modelInForce, type ShopModel } from './hours-model.ts';
import {
  AccessFactorType,
  AccessStepInput,
  type AccessTable,
  AccessTableType,
} from './places-types.ts';
import { saveAccessPriors } from './save-access-priors.ts';

const MOST_REVISIONS = 50;
const OWN: AccessTable = {
  revision: 0,
  access: OWN_TABLE,
  savedAt: null,
  savedBy: null,
  reason: '',
  changes: [],
};

interface Places {
  model: ShopModel;
  /** Newest first; the program's own comes last where all are there. */
  tables: AccessTable[];
}

/** The tables of access priors, newest first, each with what it changed. */
async function accessTables(read: Tx): Promise<AccessTable[]> {
  const saved = await read.hoursPriors.findMany({
    orderBy: { revision: 'desc' },
    take: MOST_REVISIONS + 1,
    include: { savedBy: { select: { name: true } } },
  });
  const tables = saved.map(({ revision, access, savedAt, savedBy, note }) => ({
    revision,
    access: access as unknown as AccessPriors,
    savedAt,
    savedBy: savedBy.name,
    reason: note,
  }));
  const older = (index: number) => tables[index + 1]?.access ?? OWN_TABLE;
  const changed = tables
    .slice(0, MOST_REVISIONS)
    .map((table, index) => ({ ...table, changes: changesBetween(older(index), table.access) }));
  return saved.length > MOST_REVISIONS ? changed : [...changed, OWN];
}

const HoursPlaces = builder.objectRef<Places>('HoursPlaces').implement({
  description:
    'What places cost: access factors as believed before, and as the shop’s jobs have moved them.',
  fields: (t) => ({
    model: t.field({
      type: FittedModelType,
      nullable: true,
      description: 'The fitted model that the factors are from; null before the first fit.',
      resolve: ({ model }, _, { read }) => (model.id ? fittedModel(read, model.id) : null),
    }),
    factors: t.field({
      type: [AccessFactorType],
      description: 'A factor for each level below the best, condition by condition.',
      resolve: ({ model }) => accessPosterior(model.predictor),
    }),
    table: t.field({
      type: AccessTableType,
      description: 'The table in force: the newest revision.',
      resolve: ({ tables }) => tables[0] ?? OWN,
    }),
    revisions: t.field({
      type: [AccessTableType],
      description: `The newest ${MOST_REVISIONS} revisions, newest first; the program’s own table is the last.`,
      resolve: ({ tables }) => tables,
    }),
    sources: t.stringList({
      description: 'Where the program’s own table comes from, in sentences.',
      resolve: () => [...SOURCES],
    }),
  }),
});

const places = async (read: Tx): Promise<Places> => ({
  model: await modelInForce(read),
  tables: await accessTables(read),
});

builder.queryField('hoursPlaces', (t) =>
  t.field({
    type: HoursPlaces,
    description: 'What places cost in hours, for everyone of the shop.',
    resolve: (_, __, { read }) => places(read),
  }),
);

const SaveAccessPriorsInput = builder.inputType('SaveAccessPriorsInput', {
  description: 'A table of access priors, whole.',
  fields: (t) => ({
    readRevision: t.int({ required: true, description: 'The revision that was read.' }),
    steps: t.field({
      type: [AccessStepInput],
      required: true,
      description: 'Every step of every condition, once.',
    }),
    reason: t.string({ required: true, description: 'Why: 3 to 2,000 characters.' }),
  }),
});

builder.mutationField('saveAccessPriors', (t) =>
  t.field({
    type: HoursPlaces,
    errors: {},
    description:
      'Saves what the shop believes that places cost, as a new revision, and has the model fitted again at once. For the manager.',
    args: {
      input: t.arg({ type: SaveAccessPriorsInput, required: true, description: 'The table.' }),
    },
    resolve: async (_, { input }, context) => {
      await saveAccessPriors(context, input);
      return places(context.read);
    },
  }),
);
