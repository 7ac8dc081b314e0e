import { partDispositions } from '@fairlead/airworthiness';
import { ComponentKind, PartDisposition, PartSide } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { countsGiven } from '../counts.ts';
import { CountsInput } from '../counts-schema.ts';
import { addPart } from './add-part.ts';
import { fitPart } from './fit-part.ts';
import { handlePart } from './handle-part.ts';
import { removePart } from './remove-part.ts';

builder.enumType(PartSide, {
  name: 'PartSide',
  description: 'Which end of a stay.',
  values: { on: { description: 'It was fitted.' }, off: { description: 'It came off.' } },
});
builder.enumType(PartDisposition, {
  name: 'PartDisposition',
  description: 'What becomes of a life-limited part that comes off (14 CFR 43.10).',
  values: Object.fromEntries(
    Object.entries(partDispositions).map(([method, { words, paragraph }]) => [
      method,
      { description: `14 CFR ${paragraph}: ${words}.` },
    ]),
  ) as Record<PartDisposition, { description: string }>,
});

const AddComponentInput = builder.inputType('AddComponentInput', {
  description: 'A serialised part with the times that its papers give.',
  fields: (t) => ({
    kind: t.field({ type: ComponentKind, required: true, description: 'Its kind.' }),
    title: t.string({ required: true, description: 'What it is, 2 to 120 characters.' }),
    partNumber: t.string({ required: true, description: 'Part number.' }),
    serial: t.string({ required: true, description: 'Serial number.' }),
    tisHundredths: t.int({
      required: true,
      description: 'Time in service since new, hundredths of an hour.',
    }),
    sinceOverhaulHundredths: t.int({ description: 'Since its last overhaul; left out: unknown.' }),
    lifeLimitHundredths: t.int({ description: 'Its life, hundredths of an hour.' }),
    counts: t.field({
      type: CountsInput,
      description: 'Cycles, landings and starts since new, as its papers say.',
    }),
  }),
});
const FitComponentInput = builder.inputType('FitComponentInput', {
  description: 'A part is fitted to an aircraft.',
  fields: (t) => ({
    componentId: t.id({ required: true, description: 'The part.' }),
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    position: t.string({ required: true, description: 'Where on it, 1 to 60 characters.' }),
    parentId: t.id({ description: 'The part that carries it, fitted to the same aircraft.' }),
    itemId: t.id({ description: 'In the course of which work.' }),
    on: t.field({ type: 'Date', description: 'When; left out: today.' }),
    tisHundredths: t.int({
      description: 'Time in service of the aircraft then; left out: as it was read last.',
    }),
    counts: t.field({
      type: CountsInput,
      description: 'Counts of the aircraft then; left out: as they were counted last.',
    }),
  }),
});
const RemoveComponentInput = builder.inputType('RemoveComponentInput', {
  description: 'A part comes off its aircraft, with what it carries.',
  fields: (t) => ({
    componentId: t.id({ required: true, description: 'The part.' }),
    on: t.field({ type: 'Date', description: 'When; left out: today.' }),
    tisHundredths: t.int({
      description: 'Time in service of the aircraft then; left out: as it was read last.',
    }),
    counts: t.field({
      type: CountsInput,
      description: 'Counts of the aircraft then; left out: as they were counted last.',
    }),
    words: t.string({
      required: true,
      description: 'Why, in what condition, and whereto: 3 to 500 characters.',
    }),
    itemId: t.id({ description: 'In the course of which work.' }),
    disposition: t.field({
      type: PartDisposition,
      description: 'What becomes of it; needed of a life-limited part.',
    }),
    dispositionWords: t.string({
      description: 'Where it is kept, or how it was made useless, up to 300 characters.',
    }),
  }),
});
const HandleComponentInput = builder.inputType('HandleComponentInput', {
  description: 'What is said of a part that went on or came off.',
  fields: (t) => ({
    fittingId: t.id({ required: true, description: 'The stay, as its part gives it.' }),
    side: t.field({ type: PartSide, required: true, description: 'Which end of it.' }),
    itemId: t.id({ description: 'In the course of which work.' }),
    disposition: t.field({
      type: PartDisposition,
      description: 'What becomes of it; of one that came off.',
    }),
    dispositionWords: t.string({
      description: 'Where it is kept, or how it was made useless, up to 300 characters.',
    }),
  }),
});
const givenItem = (id: string | null | undefined) => (id ? keyOf('WorkItem', id, 'itemId') : null);

builder.mutationFields((t) => ({
  addComponent: t.prismaField({
    type: 'Component',
    errors: {},
    description: 'Adds a serialised part to the shop’s list; it lies on the shelf.',
    args: { input: t.arg({ type: AddComponentInput, required: true, description: 'The part.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addPart(context, {
        ...input,
        counts: countsGiven(input.counts),
        sinceOverhaulHundredths: input.sinceOverhaulHundredths ?? null,
        lifeLimitHundredths: input.lifeLimitHundredths ?? null,
      });
      return context.read.component.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  fitComponent: t.prismaField({
    type: 'Component',
    errors: {},
    description: 'Fits a part to an aircraft; its time and what falls due on it come along.',
    args: { input: t.arg({ type: FitComponentInput, required: true, description: 'Whereto.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await fitPart(context, {
        componentId: keyOf('Component', input.componentId, 'componentId'),
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        parentId: input.parentId ? keyOf('Component', input.parentId, 'parentId') : null,
        ...{ position: input.position, on: input.on ?? null },
        tisHundredths: input.tisHundredths ?? null,
        counts: countsGiven(input.counts),
        itemId: givenItem(input.itemId),
      });
      return context.read.component.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  removeComponent: t.prismaField({
    type: 'Component',
    errors: {},
    description: 'Takes a part off its aircraft, with what it carries.',
    args: { input: t.arg({ type: RemoveComponentInput, required: true, description: 'Why.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await removePart(context, {
        componentId: keyOf('Component', input.componentId, 'componentId'),
        ...{ on: input.on ?? null, tisHundredths: input.tisHundredths ?? null },
        counts: countsGiven(input.counts),
        words: input.words,
        itemId: givenItem(input.itemId),
        disposition: input.disposition ?? null,
        dispositionWords: input.dispositionWords ?? '',
      });
      return context.read.component.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  handleComponent: t.prismaField({
    type: 'Component',
    errors: {},
    description:
      'Says in the course of which work a part went on or came off, and what becomes of it. The newest word holds.',
    args: { input: t.arg({ type: HandleComponentInput, required: true, description: 'What.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await handlePart(context, {
        fittingId: keyOf('PartStay', input.fittingId, 'fittingId'),
        side: input.side,
        itemId: givenItem(input.itemId),
        disposition: input.disposition ?? null,
        dispositionWords: input.dispositionWords ?? '',
      });
      return context.read.component.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
