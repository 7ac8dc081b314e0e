import { ToolKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { shopToday } from '../today.ts';
import { addTool, calibrateTool, retireTool } from './keep-tools.ts';
import { goodUntil, isLapsed, toolFacts } from './tools.ts';

const { calibrations } = toolFacts;

builder.enumType(ToolKind, {
  name: 'ToolKind',
  description: 'What a tool with a calibration date is for.',
  values: {
    torque_wrench: { description: 'Tightens fasteners.' },
    test_gear: { description: 'Measures: compression, pressure, voltage.' },
  },
});

builder.prismaNode('Tool', {
  id: { field: 'id' },
  description: 'A torque wrench or a piece of test gear that carries a calibration date.',
  fields: (t) => ({
    kind: t.expose('kind', { type: ToolKind, description: 'What it is for.' }),
    name: t.exposeString('name', { description: 'What it is.' }),
    number: t.exposeString('number', { description: 'As it is engraved or tagged.' }),
    retiredAt: t.expose('retiredAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it left the list; null: it is in use.',
    }),
    goodUntil: t.field({
      type: 'Date',
      nullable: true,
      description: 'The last day on which it is good; null: it was never calibrated.',
      select: { calibrations },
      resolve: goodUntil,
    }),
    lapsed: t.boolean({
      description: 'Whether that day is over, in the shop.',
      select: { calibrations },
      resolve: async (tool, _, context) => isLapsed(goodUntil(tool), await shopToday(context)),
    }),
    calibrations: t.relation('calibrations', {
      description: 'Its calibrations, newest first.',
      query: { orderBy: calibrations.orderBy },
    }),
  }),
});
builder.prismaObject('ToolCalibration', {
  description: 'A calibration. Never changed.',
  fields: (t) => ({
    dueOn: t.expose('dueOn', { type: 'Date', description: 'The last day on which it is good.' }),
    words: t.exposeString('words', { description: 'Who calibrated it, under which number.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was written down.' }),
    by: t.relation('by', { description: 'Who wrote it down.' }),
  }),
});

builder.queryField('tools', (t) =>
  t.prismaField({
    type: ['Tool'],
    description: 'The tools in use that carry a calibration date, by name.',
    resolve: (query, _, __, { read }) =>
      read.tool.findMany({
        ...query,
        where: { retiredAt: null },
        orderBy: [{ name: 'asc' }, { number: 'asc' }],
      }),
  }),
);

const calibration = {
  dueOn: 'The last day on which it is good.',
  words: 'Who calibrated it, under which number; at most 200 characters.',
};
const AddToolInput = builder.inputType('AddToolInput', {
  description: 'A tool that carries a calibration date.',
  fields: (t) => ({
    kind: t.field({ type: ToolKind, required: true, description: 'What it is for.' }),
    name: t.string({ required: true, description: 'What it is, 2 to 120 characters.' }),
    number: t.string({ required: true, description: 'As it is engraved, 1 to 60 characters.' }),
    dueOn: t.field({ type: 'Date', required: true, description: calibration.dueOn }),
    words: t.string({ description: calibration.words }),
  }),
});
const CalibrateToolInput = builder.inputType('CalibrateToolInput', {
  description: 'That a tool was calibrated.',
  fields: (t) => ({
    toolId: t.id({ required: true, description: 'Which.' }),
    dueOn: t.field({ type: 'Date', required: true, description: calibration.dueOn }),
    words: t.string({ description: calibration.words }),
  }),
});
const RetireToolInput = builder.inputType('RetireToolInput', {
  description: 'That a tool is no longer used.',
  fields: (t) => ({ toolId: t.id({ required: true, description: 'Which.' }) }),
});

builder.mutationFields((t) => ({
  addTool: t.prismaField({
    type: 'Tool',
    errors: {},
    description: "Puts a tool on the shop's list. For the manager.",
    args: { input: t.arg({ type: AddToolInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addTool(context, { ...input, words: input.words ?? '' });
      return context.read.tool.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  calibrateTool: t.prismaField({
    type: 'Tool',
    errors: {},
    description: 'Writes down a calibration: from now on it holds. For the manager.',
    args: { input: t.arg({ type: CalibrateToolInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await calibrateTool(context, {
        toolId: keyOf('Tool', input.toolId, 'toolId'),
        dueOn: input.dueOn,
        words: input.words ?? '',
      });
      return context.read.tool.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  retireTool: t.prismaField({
    type: 'Tool',
    errors: {},
    description: "Takes a tool off the shop's list. For the manager.",
    args: { input: t.arg({ type: RetireToolInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await retireTool(context, { toolId: keyOf('Tool', input.toolId, 'toolId') });
      return context.read.tool.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
