import { NutKind, TorqueSource, TorqueUnit } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { eventFields } from './event-fields.ts';
import { givenTorque } from './given-torque.ts';
import { recordCompression } from './record-compression.ts';
import { recordTorque } from './record-torque.ts';

const words = {
  torque: 'Wanted at the fastener, without friction drag: above 0, with at most 2 decimals.',
  drag: 'Friction drag of a self-locking nut, in the same unit; it is added.',
  lever: 'With an adapter: from the middle of the handle to the middle of the drive.',
  extension:
    'How much the adapter lengthens that, in the same unit of length; negative where it points back, 0 where it is square.',
};
const SettingType = builder.objectRef<{ setting: string }>('TorqueSetting').implement({
  description: 'What a wrench is set to.',
  fields: (t) => ({
    setting: t.field({
      type: 'Decimal',
      description: '(torque + drag) · L / (L + E), in the unit given, to hundredths.',
      resolve: ({ setting }) => setting,
    }),
  }),
});

builder.queryField('torqueSetting', (t) =>
  t.field({
    type: SettingType,
    errors: {},
    description: 'What a torque wrench is set to, with friction drag and an adapter reckoned in.',
    args: {
      torque: t.arg({ type: 'Decimal', required: true, description: words.torque }),
      unit: t.arg({ type: TorqueUnit, required: true, description: 'In which unit.' }),
      drag: t.arg({ type: 'Decimal', description: words.drag }),
      lever: t.arg({ type: 'Decimal', description: words.lever }),
      extension: t.arg({ type: 'Decimal', description: words.extension }),
    },
    resolve: (_, { torque, unit, drag, lever, extension }) =>
      givenTorque({
        torque,
        unit,
        drag: drag ?? null,
        lever: lever ?? null,
        extension: extension ?? null,
      }),
  }),
);

const RecordTorqueInput = builder.inputType('RecordTorqueInput', {
  description: 'A fastener that was torqued.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: 'At which item.' }),
    fastener: t.string({ required: true, description: 'Which fastener, 2 to 200 characters.' }),
    torque: t.field({ type: 'Decimal', required: true, description: words.torque }),
    unit: t.field({ type: TorqueUnit, required: true, description: 'In which unit.' }),
    drag: t.field({ type: 'Decimal', description: words.drag }),
    lever: t.field({ type: 'Decimal', description: words.lever }),
    extension: t.field({ type: 'Decimal', description: words.extension }),
    source: t.field({ type: TorqueSource, required: true, description: 'Where it is from.' }),
    thread: t.string({ description: 'For a general torque: the thread, as the table names it.' }),
    nut: t.field({ type: NutKind, description: 'For a general torque: the kind of nut.' }),
    toolId: t.id({ required: true, description: 'With which wrench.' }),
    reason: t.string({
      description: 'Where its calibration has lapsed: why it was used, 3 to 500 characters.',
    }),
    ...eventFields(t),
  }),
});
const RecordCompressionInput = builder.inputType('RecordCompressionInput', {
  description: 'A differential-compression check.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: 'At which item.' }),
    engine: t.string({ description: 'Which engine, at most 60 characters.' }),
    supply: t.int({ required: true, description: 'Pressure of the supply, 1 to 200 psi.' }),
    held: t.intList({
      required: true,
      description: 'What each cylinder held, psi, from cylinder 1; 1 to 18 of them.',
    }),
    note: t.string({ description: 'More of it, at most 500 characters.' }),
    ...eventFields(t),
  }),
});

builder.mutationFields((t) => ({
  recordTorque: t.prismaField({
    type: 'TorqueRecord',
    errors: {},
    description:
      'Records that a fastener was torqued. A wrench whose calibration has lapsed needs a reason, and is flagged.',
    args: { input: t.arg({ type: RecordTorqueInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordTorque(context, {
        ...input,
        itemId: keyOf('WorkItem', input.itemId, 'itemId'),
        toolId: keyOf('Tool', input.toolId, 'toolId'),
        drag: input.drag ?? null,
        lever: input.lever ?? null,
        extension: input.extension ?? null,
        thread: input.thread ?? null,
        nut: input.nut ?? null,
        reason: input.reason ?? '',
        at: input.at ?? null,
      });
      return context.read.torqueRecord.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  recordCompression: t.prismaField({
    type: 'CompressionCheck',
    errors: {},
    description: 'Records a differential-compression check, whatever it shows.',
    args: { input: t.arg({ type: RecordCompressionInput, required: true, description: 'It.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordCompression(context, {
        ...input,
        itemId: keyOf('WorkItem', input.itemId, 'itemId'),
        engine: input.engine ?? '',
        note: input.note ?? '',
        at: input.at ?? null,
      });
      return context.read.compressionCheck.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
