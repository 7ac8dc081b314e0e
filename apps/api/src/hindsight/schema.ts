import { resolveOffsetConnection } from '@pothos/plugin-relay';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import './accuracy-schema.ts';
import './honest-schema.ts';
import './odd-schema.ts';
import './places-schema.ts';
import {
  jobsByTask,
  type PastJobRow,
  pastJobPage,
  type QuotedItemRow,
  quotedItems,
  type TaskJobsRow,
} from './queries.ts';
import { HistoryUpload, uploadOnDesk } from './upload-schema.ts';

const MOST_TASKS = 500;
const MOST_ITEMS = 200;

builder.prismaNode('HistoryImport', {
  id: { field: 'id' },
  description: 'A file of past jobs that was taken in whole.',
  fields: (t) => ({
    fileName: t.exposeString('fileName', { description: 'Its name.' }),
    rows: t.exposeInt('rows', {
      description: 'Jobs that it added; those that were there already are not counted.',
    }),
    already: t.exposeInt('already', { description: 'Rows of it that were there already.' }),
    refused: t.exposeInt('refused', { description: 'Rows of it that were refused.' }),
    importedBy: t.relation('importedBy', {
      nullable: true,
      description: 'Who took it in; null: the command line.',
    }),
    importedAt: t.expose('importedAt', { type: 'DateTime', description: 'When.' }),
  }),
});

const PastJob = builder.objectRef<PastJobRow>('PastJob').implement({
  description:
    'A past job: a row of a history file, or an item that this shop has clocked and finished.',
  fields: (t) => ({
    completedOn: t.expose('completedOn', {
      type: 'Date',
      description: 'The day on which it was completed.',
    }),
    task: t.exposeString('task', { description: 'The short name of its task.' }),
    title: t.exposeString('title', {
      nullable: true,
      description: 'What the task is called; null where the shop has no such task.',
    }),
    registration: t.exposeString('registration', {
      description: 'On which aircraft; empty where it was not recorded.',
    }),
    model: t.exposeString('model', { description: 'Its model; empty where it was not recorded.' }),
    hours: t.exposeFloat('hours', { description: 'Hands-on hours, all people added.' }),
    lowerBound: t.exposeBoolean('censored', {
      description: 'True where the hours are only a lower bound: it was handed over unfinished.',
    }),
  }),
});

const TaskJobs = builder.objectRef<TaskJobsRow>('TaskJobs').implement({
  description: 'What the shop has clocked on one task.',
  fields: (t) => ({
    task: t.exposeString('task', { description: 'The short name of the task.' }),
    title: t.exposeString('title', {
      nullable: true,
      description: 'What it is called; null where the shop has no such task.',
    }),
    standardHours: t.exposeFloat('standardHours', {
      nullable: true,
      description: 'Its standard hours, where it has any.',
    }),
    jobs: t.exposeInt('jobs', { description: 'Finished jobs.' }),
    lowerBounds: t.exposeInt('bounds', {
      description: 'Jobs that were handed over unfinished, besides those.',
    }),
    medianHours: t.exposeFloat('medianHours', {
      nullable: true,
      description: 'Half of the finished jobs took no longer; null where none is finished.',
    }),
    lastOn: t.expose('lastOn', { type: 'Date', description: 'The day of the last one.' }),
  }),
});

const QuotedItem = builder.objectRef<QuotedItemRow>('QuotedAgainstActual').implement({
  description:
    'A finished item: the hours that were estimated when it was quoted, and those that were clocked.',
  fields: (t) => ({
    itemId: t.id({
      description: 'The work item.',
      resolve: ({ itemId }) => globalId('WorkItem', itemId),
    }),
    title: t.exposeString('title', { description: 'What was done.' }),
    orderNumber: t.exposeInt('orderNumber', { description: 'Number of its order.' }),
    registration: t.exposeString('registration', { description: 'On which aircraft.' }),
    doneAt: t.expose('doneAt', { type: 'DateTime', description: 'When it was finished.' }),
    p10: t.exposeFloat('p10', { description: 'Quoted: one in ten is under this many hours.' }),
    p50: t.exposeFloat('p50', { description: 'Quoted: as likely over as under.' }),
    p80: t.exposeFloat('p80', { description: 'Quoted: eight in ten are under this many hours.' }),
    p90: t.exposeFloat('p90', { description: 'Quoted: nine in ten are under this many hours.' }),
    actual: t.exposeFloat('actual', { description: 'Hands-on hours clocked, all people added.' }),
    within: t.boolean({
      description: 'True where the clock came out between P10 and P90, as eight in ten should.',
      resolve: ({ p10, p90, actual }) => p10 <= actual && actual <= p90,
    }),
  }),
});

const Hindsight = builder.objectRef<Record<string, never>>('Hindsight').implement({
  description: 'Estimates against what happened.',
  fields: (t) => ({
    jobs: t.connection({
      type: PastJob,
      description: 'Past jobs, newest first.',
      args: { task: t.arg.string({ description: 'Only jobs of the task with this short name.' }) },
      resolve: (_, args, { read }) =>
        resolveOffsetConnection({ args, defaultSize: 50, maxSize: 200 }, (page) =>
          pastJobPage(read, { task: args.task ?? null, ...page }),
        ),
    }),
    byTask: t.field({
      type: [TaskJobs],
      description: `Past jobs counted by task, the most often done first; at most ${MOST_TASKS} tasks.`,
      resolve: (_, __, { read }) => jobsByTask(read, MOST_TASKS),
    }),
    quotedAgainstActual: t.field({
      type: [QuotedItem],
      description: `Finished items that had been quoted with hours, newest first; at most ${MOST_ITEMS}.`,
      resolve: (_, __, { read }) => quotedItems(read, MOST_ITEMS),
    }),
    upload: t.field({
      type: HistoryUpload,
      nullable: true,
      description: 'The history file on the desk; null where none lies there.',
      resolve: (_, __, { read }) => uploadOnDesk(read),
    }),
    imports: t.prismaConnection({
      type: 'HistoryImport',
      cursor: 'id',
      description: 'History files taken in, newest first.',
      resolve: (query, _, __, { read }) =>
        read.historyImport.findMany({
          ...query,
          orderBy: [{ importedAt: 'desc' }, { id: 'desc' }],
        }),
    }),
  }),
});

builder.queryField('hindsight', (t) =>
  t.field({
    type: Hindsight,
    description: 'What the shop has clocked, and how its estimates did.',
    resolve: () => ({}),
  }),
);
