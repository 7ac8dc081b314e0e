import { FindingClass } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addFindingPhoto } from './add-finding-photo.ts';
import { assessFinding } from './assess-finding.ts';
import { clientEventIdWords, DeviceInput } from './device-inputs.ts';
import { SightingInput } from './diagnosis/sighting-input.ts';
import { noteFinding } from './note-finding.ts';
import { putOffFinding } from './put-off-finding.ts';
import { settleFinding } from './settle-finding.ts';

const NoteFindingInput = builder.inputType('NoteFindingInput', {
  description: 'What somebody found.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    itemId: t.id({ description: 'During which item.' }),
    title: t.string({ required: true, description: 'What, in a line, 3 to 200 characters.' }),
    words: t.string({ required: true, description: 'More of it, at most 4,000 characters.' }),
    zone: t.string({
      required: true,
      description: 'Where on the aircraft: a zone of the side view, or empty.',
    }),
    class: t.field({
      type: FindingClass,
      required: true,
      description: 'How it looks to the finder.',
    }),
    photoIds: t.idList({ required: true, description: 'Pictures sent before, at most 12.' }),
    sighting: t.field({
      type: SightingInput,
      description: 'What the finder sees, where they said so.',
    }),
    foundAt: t.field({
      type: 'DateTime',
      required: true,
      description: 'When, by the clock of the device.',
    }),
    clientEventId: t.string({ required: true, description: clientEventIdWords }),
    device: t.field({
      type: DeviceInput,
      description: 'On which device; left out: one whose clock is taken as right.',
    }),
  }),
});
const AddFindingPhotoInput = builder.inputType('AddFindingPhotoInput', {
  description: 'A picture that was still on its way when its finding was noted.',
  fields: (t) => ({
    clientEventId: t.string({
      required: true,
      description: 'Of which finding: the UUID with which its device noted it.',
    }),
    photoId: t.id({ required: true, description: 'Which picture, sent before.' }),
    beforeId: t.id({
      description:
        'The picture of the same finding that shows the same before the correction: the two stand side by side.',
    }),
  }),
});
const AssessFindingInput = builder.inputType('AssessFindingInput', {
  description: 'What a qualified person says of a finding.',
  fields: (t) => ({
    findingId: t.id({ required: true, description: 'Which.' }),
    class: t.field({ type: FindingClass, required: true, description: 'Its class.' }),
    meaning: t.string({
      required: true,
      description: 'What it means, in words that its owner understands, 3 to 2,000 characters.',
    }),
  }),
});
const PutOffFindingInput = builder.inputType('PutOffFindingInput', {
  description: 'That a finding is left for later.',
  fields: (t) => ({
    findingId: t.id({ required: true, description: 'Which.' }),
    reason: t.string({ required: true, description: 'Why, 3 to 2,000 characters.' }),
    untilOn: t.field({ type: 'Date', description: 'Until this day; not before today.' }),
    untilHundredths: t.int({
      description: 'Until this time in service of the aircraft, hundredths of an hour.',
    }),
    untilInspection: t.boolean({
      defaultValue: false,
      description: 'Until its next inspection. Of several the first counts.',
    }),
  }),
});

builder.mutationFields((t) => ({
  noteFinding: t.prismaField({
    type: 'Finding',
    errors: {},
    description: 'Notes a finding, with its pictures. Refused before the aircraft was received.',
    args: {
      input: t.arg({ type: NoteFindingInput, required: true, description: 'What was found.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await noteFinding(context, {
        ...input,
        device: input.device ?? null,
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        photoIds: input.photoIds.map((photo) => keyOf('Photo', photo, 'photoIds')),
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addFindingPhoto: t.prismaField({
    type: 'Finding',
    errors: {},
    description: 'Adds a picture to a finding. Sent twice, it is added once; a finding holds 12.',
    args: {
      input: t.arg({
        type: AddFindingPhotoInput,
        required: true,
        description: 'Which picture, to which finding.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addFindingPhoto(context, {
        clientEventId: input.clientEventId,
        photoId: keyOf('Photo', input.photoId, 'photoId'),
        beforeId: input.beforeId ? keyOf('Photo', input.beforeId, 'beforeId') : null,
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  assessFinding: t.prismaField({
    type: 'Finding',
    errors: {},
    description:
      'Gives a finding its class and says what it means. For an inspector, or a manager who holds a certificate.',
    args: {
      input: t.arg({
        type: AssessFindingInput,
        required: true,
        description: 'Which, and what it is.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await assessFinding(context, {
        ...input,
        findingId: keyOf('Finding', input.findingId, 'findingId'),
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  putOffFinding: t.prismaField({
    type: 'Finding',
    errors: {},
    description: 'Leaves a finding for a later visit.',
    args: {
      input: t.arg({ type: PutOffFindingInput, required: true, description: 'Which, and why.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await putOffFinding(context, {
        ...{ reason: input.reason, untilOn: input.untilOn ?? null },
        untilHundredths: input.untilHundredths ?? null,
        untilInspection: input.untilInspection ?? false,
        findingId: keyOf('Finding', input.findingId, 'findingId'),
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  settleFinding: t.prismaField({
    type: 'Finding',
    errors: {},
    description:
      'Says of a finding that was put off or declined that it was put right later, or needs nothing any more.',
    args: {
      findingId: t.arg.id({ required: true, description: 'Which.' }),
      words: t.arg.string({
        required: true,
        description: 'How, on which order, or why nothing: 3 to 2,000 characters.',
      }),
    },
    resolve: async (query, _, { findingId, words }, context) => {
      const id = await settleFinding(context, {
        findingId: keyOf('Finding', findingId, 'findingId'),
        words,
      });
      return context.read.finding.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
