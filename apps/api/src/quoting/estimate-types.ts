import { hoursQuantile, type Reason } from '@fairlead/labour';
import { builder } from '../builder.ts';
import type { TaskEstimate } from './estimate-task.ts';

/** One figure of a reason, where its kind has it. */
const figure = <K extends string>(reason: Reason, name: K): number | null => {
  const value: unknown = (reason as Record<string, unknown>)[name];
  return typeof value === 'number' ? value : null;
};

/** One reason behind an estimate, as it goes out. */
export const EstimateReason = builder.objectRef<Reason>('EstimateReason').implement({
  description:
    'One reason behind an estimate. Those with hours or a factor form a chain whose product is the P50.',
  fields: (t) => ({
    kind: t.exposeString('kind', { description: 'Which reason, for programs.' }),
    sentence: t.exposeString('sentence', { description: 'The reason in one plain sentence.' }),
    hours: t.float({
      nullable: true,
      description: 'Where the chain starts, hours.',
      resolve: (reason) => figure(reason, 'hours'),
    }),
    factor: t.float({
      nullable: true,
      description: 'A factor on what comes before it.',
      resolve: (reason) => figure(reason, 'factor'),
    }),
    jobs: t.int({
      nullable: true,
      description: 'Jobs behind it.',
      resolve: (reason) => figure(reason, 'jobs'),
    }),
    meanLnHours: t.float({
      nullable: true,
      description: 'Mean of ln hours of the jobs.',
      resolve: (reason) => figure(reason, 'meanLnHours'),
    }),
    sdLnHours: t.float({
      nullable: true,
      description: 'Standard deviation of ln hours of the jobs, n − 1.',
      resolve: (reason) => figure(reason, 'sdLnHours'),
    }),
  }),
});

/** A distribution of hours, as it goes out. */
export const EstimateType = builder.objectRef<TaskEstimate>('Estimate').implement({
  description:
    'How many hands-on hours something will take: a distribution, all people added, waiting excluded.',
  fields: (t) => ({
    p10: t.float({
      description: 'One in ten is under this many hours.',
      resolve: ({ p10 }) => p10,
    }),
    p50: t.float({ description: 'As likely over as under.', resolve: ({ p50 }) => p50 }),
    mean: t.float({ description: 'The lognormal plug-in mean.', resolve: ({ mean }) => mean }),
    p80: t.float({
      description: 'Eight in ten are under this many hours.',
      resolve: ({ p80 }) => p80,
    }),
    p90: t.float({
      description: 'Nine in ten are under this many hours.',
      resolve: ({ p90 }) => p90,
    }),
    p95: t.float({
      description: 'Nineteen in twenty are under this many hours.',
      resolve: ({ predictive }) => hoursQuantile(predictive, 0.95),
    }),
    jobs: t.exposeInt('jobs', { description: 'Finished jobs of this task behind it.' }),
    because: t.field({
      type: [EstimateReason],
      description: 'Why: the chain first, then what else the reader should know.',
      resolve: ({ because }) => [...because],
    }),
    modelVersion: t.exposeString('modelVersion', {
      description: 'Which version of the model said so.',
    }),
  }),
});
