import {
  type InspectionItem,
  inspectionGroups,
  type LeftOut,
  missingFromInspection,
  oldData,
  readDay,
  type StarterPackage,
  starterPackages,
} from '@fairlead/airworthiness';
import { AircraftKind, InspectionKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { sayDay } from '../given.ts';
import { keyOf } from '../ids.ts';
import { shopToday } from '../today.ts';
import { savePackage } from './save-package.ts';
import { inspectedAs, takeStarter } from './take-starter.ts';

const InspectionLine = builder.objectRef<InspectionItem>('InspectionLine').implement({
  description: 'A line of 14 CFR part 43 appendix D or of 43.15.',
  fields: (t) => ({
    paragraph: t.exposeString('paragraph', { description: 'Which: "appendix D(d)(3)".' }),
    group: t.string({
      description: 'The group that it stands in.',
      resolve: ({ group }) => inspectionGroups[group],
    }),
    title: t.exposeString('title', { description: 'What is done, in our words.' }),
    jasc: t.exposeString('jasc', { description: 'FAA JASC code of such work.' }),
    checklist: t.stringList({
      description: 'What is looked at.',
      resolve: ({ checklist }) => [...checklist],
    }),
  }),
});

const LeftOutType = builder.objectRef<LeftOut>('LeftOutLine').implement({
  description: 'A line of the rule that is not asked for.',
  fields: (t) => ({
    paragraph: t.exposeString('paragraph', { description: 'Which.' }),
    because: t.exposeString('because', { description: 'Why not.' }),
  }),
});

const StarterPackageType = builder.objectRef<StarterPackage>('StarterPackage').implement({
  description: 'An inspection to start from, of the whole scope of the rule; without hours.',
  fields: (t) => ({
    key: t.exposeString('key', { description: 'By which it is taken.' }),
    title: t.exposeString('title', { description: 'What it is called.' }),
    inspection: t.expose('inspection', { type: InspectionKind, description: 'Which inspection.' }),
    aircraft: t.exposeString('aircraft', { description: '"helicopter" or "airplane".' }),
    items: t.field({
      type: [InspectionLine],
      description: 'What is done, in order.',
      resolve: ({ items }) => [...items],
    }),
    leftOut: t.field({
      type: [LeftOutType],
      description: 'Lines of the rule that such an aircraft has nothing for.',
      resolve: ({ leftOut }) => [...leftOut],
    }),
  }),
});

builder.prismaNode('PackageRevision', {
  id: { field: 'id' },
  description: 'What a package was at a revision. Never changed.',
  fields: (t) => ({
    revision: t.exposeInt('revision', { description: 'Which, from 1.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When it was made.' }),
    by: t.relation('by', { description: 'Who made it.' }),
    titles: t.stringList({
      description: 'What was done in it, in order.',
      resolve: ({ content }) =>
        (content as { tasks: { title: string }[] }).tasks.map(({ title }) => title),
    }),
  }),
});

builder.prismaObjectFields('Package', (t) => ({
  madeFromOn: t.expose('madeFromOn', {
    type: 'Date',
    nullable: true,
    description: 'The date of that data; null: nobody said.',
  }),
  offered: t.exposeBoolean('offered', { description: 'Whether new quotes are made of it.' }),
  warning: t.string({
    nullable: true,
    description: 'That its data are old, or not named, in a sentence; null where they are not.',
    select: { inspection: true, madeFrom: true, madeFromOn: true },
    resolve: async ({ inspection, madeFrom: from, madeFromOn }, _, context) =>
      inspection === null && from === ''
        ? null
        : oldData({
            from,
            on: madeFromOn && readDay(sayDay(madeFromOn)),
            today: readDay(sayDay(await shopToday(context))),
          }),
  }),
  missing: t.field({
    type: [InspectionLine],
    description:
      'Of an inspection of a kind of aircraft: lines of the rule that no task of it says that it answers.',
    select: {
      inspection: true,
      modelKind: true,
      model: { select: { kind: true } },
      tasks: { select: { task: { select: { paragraphs: true } } } },
    },
    resolve: ({ inspection, modelKind, model, tasks }) => {
      const kind = model?.kind ?? modelKind;
      if (inspection === null || kind === null) return [];
      return missingFromInspection(
        tasks.flatMap(({ task }) => task.paragraphs),
        inspectedAs[kind],
      );
    },
  }),
  revisions: t.relation('revisions', {
    description: 'What it was, newest first; empty where it was laid out with the shop.',
    query: { orderBy: { revision: 'desc' } },
  }),
}));

const SavePackageInput = builder.inputType('SavePackageInput', {
  description: 'A package as it is to be, all of it.',
  fields: (t) => ({
    packageId: t.id({ description: 'Which; left out: a new one.' }),
    fromRevision: t.int({ description: 'The revision that was read; left out for a new one.' }),
    title: t.string({ required: true, description: 'What it is sold as, 3 to 200 characters.' }),
    inspection: t.field({ type: InspectionKind, description: 'Which inspection it is, if one.' }),
    modelKind: t.field({ type: AircraftKind, description: 'For this kind of aircraft only.' }),
    modelId: t.id({ description: 'For this model only; not together with a kind.' }),
    price: t.field({
      type: 'Minor',
      description: 'Fixed price, net, above 0; left out: by time and materials.',
    }),
    madeFrom: t.string({
      required: true,
      description:
        'The data that the list was made from, with its revision, at most 300 characters; needed for an inspection.',
    }),
    madeFromOn: t.field({ type: 'Date', description: 'The date of that data, not after today.' }),
    offered: t.boolean({
      required: true,
      defaultValue: true,
      description: 'Whether new quotes are made of it.',
    }),
    taskIds: t.idList({ required: true, description: 'What is done, in order: 1 to 150 tasks.' }),
  }),
});

const TakeStarterInput = builder.inputType('TakeStarterInput', {
  description: 'A starter package to copy into the shop.',
  fields: (t) => ({
    starter: t.string({ required: true, description: 'Its key.' }),
    modelKind: t.field({ type: AircraftKind, description: 'For this kind of aircraft.' }),
    modelId: t.id({ description: 'For this model; one of the two is needed.' }),
  }),
});

builder.queryField('starterPackages', (t) =>
  t.field({
    type: [StarterPackageType],
    description: 'Inspections to start from.',
    resolve: () => starterPackages(),
  }),
);

builder.mutationFields((t) => ({
  savePackage: t.prismaField({
    type: 'Package',
    errors: {},
    description: 'Puts a package together, or makes its next revision. For the manager.',
    args: { input: t.arg({ type: SavePackageInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await savePackage(context, {
        packageId: input.packageId ? keyOf('Package', input.packageId, 'packageId') : null,
        fromRevision: input.fromRevision ?? null,
        title: input.title,
        inspection: input.inspection ?? null,
        modelKind: input.modelKind ?? null,
        modelId: input.modelId ? keyOf('AircraftModel', input.modelId, 'modelId') : null,
        price: input.price ?? null,
        madeFrom: input.madeFrom,
        madeFromOn: input.madeFromOn ?? null,
        offered: input.offered,
        taskIds: input.taskIds.map((taskId) => keyOf('Task', taskId, 'taskIds')),
      });
      return context.read.package.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  takeStarter: t.prismaField({
    type: 'Package',
    errors: {},
    description:
      'Copies a starter package and its tasks into the shop, whose own they are from then on. For the manager.',
    args: {
      input: t.arg({ type: TakeStarterInput, required: true, description: 'Which, for what.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await takeStarter(context, {
        starter: input.starter,
        modelKind: input.modelKind ?? null,
        modelId: input.modelId ? keyOf('AircraftModel', input.modelId, 'modelId') : null,
      });
      return context.read.package.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
