import { OpenKind, OpenLineEventKind, ToolCountKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { countTools } from './count-tools.ts';
import { eventFields } from './event-fields.ts';
import { markOpenLine, type NamedLine } from './mark-open-line.ts';
import { noteOpenLine } from './note-open-line.ts';

const NoteOpenLineInput = builder.inputType('NoteOpenLineInput', {
  description: 'Something that was opened or taken off.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'On which order.' }),
    itemId: t.id({ description: 'For which of its items; left out: for the order.' }),
    kind: t.field({ type: OpenKind, required: true, description: 'Opened, or removed.' }),
    words: t.string({ required: true, description: 'What, 2 to 200 characters.' }),
    place: t.string({ description: 'Where on the aircraft, at most 120 characters.' }),
    ...eventFields(t),
  }),
});
const MarkOpenLineInput = builder.inputType('MarkOpenLineInput', {
  description: 'What became of something that was opened or taken off.',
  fields: (t) => ({
    lineId: t.id({ description: 'Which line.' }),
    lineClientEventId: t.string({
      description:
        'Instead of lineId: the UUID under which the device noted the line, where it has not heard of another yet.',
    }),
    kind: t.field({ type: OpenLineEventKind, required: true, description: 'What.' }),
    note: t.string({
      description: 'More of it, at most 500 characters; to strike it out at least 3: why.',
    }),
    ...eventFields(t),
  }),
});
const ToolCountLineInput = builder.inputType('ToolCountLineInput', {
  description: 'A name on a count, with its number.',
  fields: (t) => ({
    name: t.string({ required: true, description: 'What, 1 to 80 characters.' }),
    number: t.int({ required: true, description: 'How many, to 999.' }),
  }),
});
const CountToolsInput = builder.inputType('CountToolsInput', {
  description: 'A count of tools and rags.',
  fields: (t) => ({
    orderId: t.id({ required: true, description: 'For which order.' }),
    itemId: t.id({ description: 'For which of its items; left out: for the order.' }),
    kind: t.field({ type: ToolCountKind, required: true, description: 'Which way.' }),
    lines: t.field({
      type: [ToolCountLineInput],
      required: true,
      description: 'What was counted, at most 60; none to account for what is missing.',
    }),
    note: t.string({
      description:
        'More of it, at most 500 characters; to account for what is missing at least 10: where it is.',
    }),
    ...eventFields(t),
  }),
});

interface GivenLine {
  lineId?: string | number | null | undefined;
  lineClientEventId?: string | null | undefined;
}
function lineIn({ lineId, lineClientEventId }: GivenLine): NamedLine {
  if (lineId != null && lineClientEventId == null)
    return { lineId: keyOf('OpenLine', `${lineId}`, 'lineId') };
  if (lineId == null && lineClientEventId != null) return { lineClientEventId };
  throw new Refused(
    'BAD_INPUT',
    `${lineId == null ? 'Neither' : 'Both'} of lineId and lineClientEventId ${lineId == null ? 'is' : 'are'} given: needed is one of them, to say which line.`,
    'lineId',
  );
}

builder.mutationFields((t) => ({
  noteOpenLine: t.prismaField({
    type: 'OpenLine',
    errors: {},
    description: 'Notes that something was opened or taken off.',
    args: { input: t.arg({ type: NoteOpenLineInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await noteOpenLine(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        kind: input.kind,
        words: input.words,
        place: input.place ?? '',
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.openLine.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  markOpenLine: t.prismaField({
    type: 'OpenLine',
    errors: {},
    description: 'Says what became of one line: closed or refitted, open again, or struck out.',
    args: {
      input: t.arg({ type: MarkOpenLineInput, required: true, description: 'Which, and what.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await markOpenLine(context, {
        line: lineIn(input),
        kind: input.kind,
        note: input.note ?? '',
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.openLine.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  countTools: t.prismaField({
    type: 'ToolCount',
    errors: {},
    description:
      'Records a count of tools and rags, out or back. One that does not agree is recorded too, and nothing is signed until it does.',
    args: { input: t.arg({ type: CountToolsInput, required: true, description: 'The count.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await countTools(context, {
        orderId: keyOf('WorkOrder', input.orderId, 'orderId'),
        itemId: input.itemId ? keyOf('WorkItem', input.itemId, 'itemId') : null,
        kind: input.kind,
        lines: input.lines,
        note: input.note ?? '',
        at: input.at ?? null,
        clientEventId: input.clientEventId,
      });
      return context.read.toolCount.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
