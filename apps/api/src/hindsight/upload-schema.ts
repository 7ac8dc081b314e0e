import type { Tx } from '@fairlead/database';
import type { Refusal } from '@fairlead/labour';
import { builder } from '../builder.ts';
import { notFound } from '../errors.ts';
import { globalId, keyOf } from '../ids.ts';
import { type PutAway, putAwayUpload } from './put-away-upload.ts';
import { takeInUpload } from './take-in-upload.ts';
import { standsStill, uploadState } from './upload-state.ts';

/** The file on the desk, without its content. */
export const uploadOnDesk = (read: Tx) =>
  read.historyUpload.findFirst({
    omit: { content: true, refusedCsv: true },
    include: { uploadedBy: { select: { name: true } } },
  });

type UploadRow = NonNullable<Awaited<ReturnType<typeof uploadOnDesk>>>;

const UploadStateEnum = builder.enumType('HistoryUploadState', {
  description: 'Where a history file on the desk stands.',
  values: {
    being_read: { description: 'The worker reads it through.' },
    read: { description: 'It is known what is good in it; nothing is imported yet.' },
    refused: { description: 'It cannot be imported; its problem says why.' },
    being_taken_in: { description: 'Its good rows are being saved.' },
    taken_in: { description: 'It is in the shop’s history.' },
  },
});

const RowRefusal = builder.objectRef<Refusal>('HistoryRefusal').implement({
  description: 'One thing that is wrong in a history file, and what would be right.',
  fields: (t) => ({
    line: t.exposeInt('line', { description: 'Line of the file, counted from 1.' }),
    column: t.exposeString('column', {
      description: 'Name of the column; empty for the whole line or file.',
    }),
    value: t.exposeString('value', {
      description: 'What is written there, its first 200 characters.',
    }),
    problem: t.exposeString('problem', {
      description: 'What is wrong with it: "is not a number".',
    }),
    remedy: t.exposeString('remedy', { description: 'What would be right.' }),
  }),
});

export const HistoryUpload = builder.objectRef<UploadRow>('HistoryUpload').implement({
  description: 'The history file on the desk: read through, and perhaps being taken in.',
  fields: (t) => ({
    id: t.id({ description: 'Its id.', resolve: ({ id }) => globalId('HistoryUpload', id) }),
    fileName: t.exposeString('fileName', { description: 'Its name.' }),
    size: t.exposeInt('size', { description: 'Bytes.' }),
    uploadedAt: t.expose('uploadedAt', { type: 'DateTime', description: 'When it came.' }),
    uploadedBy: t.string({
      description: 'Who laid it there.',
      resolve: ({ uploadedBy }) => uploadedBy.name,
    }),
    state: t.field({
      type: UploadStateEnum,
      description: 'Where it stands.',
      resolve: uploadState,
    }),
    problem: t.exposeString('problem', {
      description: 'Why it cannot be imported, or was not; else empty.',
    }),
    goodRows: t.exposeInt('goodRows', { description: 'Rows that can be imported.' }),
    alreadyRows: t.exposeInt('alreadyRows', {
      description: 'Of those, rows that the shop has already.',
    }),
    refusedRows: t.exposeInt('refusedRows', { description: 'Rows that are refused.' }),
    refusals: t.exposeInt('refusals', { description: 'Single refusals; a row may have several.' }),
    firstRefusals: t.field({
      type: [RowRefusal],
      description: 'The first 200 of them; the file of refused rows has all.',
      resolve: ({ firstRefusals }) => firstRefusals as unknown as Refusal[],
    }),
    refusedFile: t.string({
      nullable: true,
      description:
        'Where the refused rows are, with their reasons, as a file to mend; null where none is.',
      resolve: ({ id, refusedRows }) =>
        refusedRows > 0 ? `/history/uploads/${globalId('HistoryUpload', id)}/refused.csv` : null,
    }),
    savedRows: t.exposeInt('savedRows', {
      description: 'Rows saved so far; none of them counts before all do.',
    }),
    standsStill: t.boolean({
      description:
        'It is being taken in, but nothing has moved for a minute: it may be asked for again.',
      resolve: (upload, _, { now }) => standsStill(upload, now()),
    }),
    addedRows: t.exposeInt('addedRows', { description: 'Jobs that it added, once taken in.' }),
  }),
});

const PutAwayType = builder.objectRef<PutAway>('HistoryPutAway').implement({
  description: 'The desk is free.',
  fields: (t) => ({
    takenIn: t.exposeBoolean('takenIn', {
      description:
        'True: the file had been taken in before, and its jobs stay. False: nothing of it was imported.',
    }),
    added: t.exposeInt('added', { description: 'Jobs that it had added.' }),
  }),
});

builder.mutationFields((t) => ({
  takeInHistory: t.field({
    type: HistoryUpload,
    errors: {},
    description:
      'Imports the good rows of the file on the desk, all of them or none. Ask the file how far it is.',
    args: { uploadId: t.arg.id({ required: true, description: 'The file on the desk.' }) },
    resolve: async (_, { uploadId }, context) => {
      await takeInUpload(context, keyOf('HistoryUpload', uploadId, 'uploadId'));
      const upload = await uploadOnDesk(context.read);
      if (!upload) throw notFound('file on the desk');
      return upload;
    },
  }),
  putAwayHistory: t.field({
    type: PutAwayType,
    errors: {},
    description:
      'Takes the file off the desk; while it is being taken in, that ends with nothing imported.',
    args: { uploadId: t.arg.id({ required: true, description: 'The file on the desk.' }) },
    resolve: (_, { uploadId }, context) =>
      putAwayUpload(context, keyOf('HistoryUpload', uploadId, 'uploadId')),
  }),
}));
