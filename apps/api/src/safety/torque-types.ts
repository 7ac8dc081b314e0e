import {
  cautionsOn,
  compressionLoss,
  type GeneralTorque,
  generalTorqueCautions,
  generalTorques,
  safetyWire,
} from '@fairlead/airworthiness';
import { NutKind, TorqueSource, TorqueUnit } from '@fairlead/database';
import { builder } from '../builder.ts';
import { clientEventIdIs } from './event-fields.ts';

builder.enumType(TorqueUnit, {
  name: 'TorqueUnit',
  description: 'A unit of torque.',
  values: {
    in_lb: { description: 'Inch-pounds.' },
    ft_lb: { description: 'Foot-pounds.' },
    n_m: { description: 'Newton metres.' },
  },
});
builder.enumType(TorqueSource, {
  name: 'TorqueSource',
  description: 'Where a torque comes from.',
  values: {
    maker: { description: "The maker's data." },
    general: { description: 'AC 43.13-1B, table 7-1, because the maker gives none.' },
  },
});
builder.enumType(NutKind, {
  name: 'NutKind',
  description: 'How a nut is loaded.',
  values: {
    tension: { description: 'Tension type: MS20365, AN310.' },
    shear: { description: 'Shear type: MS20364, AN320.' },
  },
});

builder.prismaNode('TorqueRecord', {
  id: { field: 'id' },
  description: 'A fastener that was torqued. Never changed.',
  fields: (t) => ({
    fastener: t.exposeString('fastener', { description: 'Which fastener.' }),
    torque: t.expose('torque', { type: 'Decimal', description: 'Wanted, without friction drag.' }),
    unit: t.expose('unit', { type: TorqueUnit, description: 'In which unit.' }),
    drag: t.expose('drag', { type: 'Decimal', description: 'Friction drag, added.' }),
    lever: t.expose('lever', {
      type: 'Decimal',
      nullable: true,
      description: 'Length of the wrench where an adapter was on it; null: none was.',
    }),
    extension: t.expose('extension', {
      type: 'Decimal',
      nullable: true,
      description: 'How much the adapter lengthened it; negative: shortened.',
    }),
    setting: t.expose('setting', { type: 'Decimal', description: 'What the wrench was set to.' }),
    source: t.expose('source', { type: TorqueSource, description: 'Where the torque is from.' }),
    thread: t.exposeString('thread', { description: 'For a general torque: the thread.' }),
    nut: t.expose('nut', {
      type: NutKind,
      nullable: true,
      description: 'For a general torque: the kind of nut.',
    }),
    tool: t.relation('tool', { description: 'With which wrench.' }),
    goodUntil: t.expose('goodUntil', {
      type: 'Date',
      description: 'Until when it was good, as was known then.',
    }),
    lapsed: t.exposeBoolean('lapsed', { description: 'Whether its calibration had lapsed.' }),
    reason: t.exposeString('reason', { description: 'Why it was used all the same.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
    clientEventId: t.exposeString('clientEventId', { description: clientEventIdIs }),
  }),
});

const Cylinder = builder
  .objectRef<{ number: number; held: number; supply: number }>('CylinderReading')
  .implement({
    description: 'What one cylinder held.',
    fields: (t) => ({
      number: t.exposeInt('number', { description: 'Which, from 1.' }),
      held: t.exposeInt('held', { description: 'What it held, psi.' }),
      inExcess: t.boolean({
        description: 'It lost more than a quarter: cause to suspect it (AC 43.13-1B, 8-14).',
        resolve: (reading) => compressionLoss(reading).inExcess,
      }),
    }),
  });

builder.prismaNode('CompressionCheck', {
  id: { field: 'id' },
  description: 'A differential-compression check of one engine. Never changed.',
  fields: (t) => ({
    engine: t.exposeString('engine', { description: 'Which engine, where there are several.' }),
    supply: t.exposeInt('supply', { description: 'Pressure of the supply, psi.' }),
    cylinders: t.field({
      type: [Cylinder],
      description: 'Each cylinder.',
      select: { held: true, supply: true },
      resolve: ({ held, supply }) =>
        held.map((each, index) => ({ number: index + 1, held: each, supply })),
    }),
    note: t.exposeString('note', { description: 'What was said to it.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { description: 'Who.' }),
    clientEventId: t.exposeString('clientEventId', { description: clientEventIdIs }),
  }),
});

const inOrder = { orderBy: [{ at: 'asc' as const }, { id: 'asc' as const }] };
builder.prismaObjectFields('WorkItem', (t) => ({
  torques: t.relation('torques', { description: 'What was torqued, in order.', query: inOrder }),
  compressions: t.relation('compressions', {
    description: 'Compression checks, in order.',
    query: inOrder,
  }),
}));

const General = builder.objectRef<GeneralTorque>('GeneralTorque').implement({
  description: 'A torque for where the maker gives none: AC 43.13-1B, table 7-1, inch-pounds.',
  fields: (t) => ({
    thread: t.exposeString('thread', { description: 'The thread.' }),
    nut: t.expose('nut', { type: NutKind, description: 'The kind of nut.' }),
    from: t.exposeInt('from', {
      description: 'Least for installation, friction drag not included.',
    }),
    to: t.exposeInt('to', { description: 'Most for installation, friction drag not included.' }),
    most: t.exposeInt('most', { description: 'Never beyond this.' }),
    estimated: t.exposeBoolean('estimated', { description: 'Marked so in the table.' }),
  }),
});

builder.queryFields((t) => ({
  generalTorques: t.field({
    type: [General],
    description: 'Torques for where the maker gives none.',
    resolve: () => generalTorques,
  }),
  torqueCautions: t.stringList({
    description: 'What has to be kept in mind with any torque.',
    resolve: () => [
      ...generalTorqueCautions,
      ...cautionsOn('torque')
        .filter(({ id }) => id !== 'only_where_maker_gives_none')
        .map(({ text }) => text),
      `Safety wire: ${safetyWire.twistsAnInch.least} to ${safetyWire.twistsAnInch.most} twists an inch, a pigtail of ${safetyWire.pigtailTurns.least} to ${safetyWire.pigtailTurns.most} turns bent under (customary; the pigtail is from memory).`,
    ],
  }),
}));
