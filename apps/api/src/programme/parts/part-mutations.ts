import { ComponentKind } from '@fairlead/database';
import { builder } from '../../builder.ts';
import { keyOf } from '../../ids.ts';
import { countsGiven } from '../counts.ts';
import { CountsInput } from '../counts-schema.ts';
import { addPart } from './add-part.ts';
import { fitPart } from './fit-part.ts';
import { removePart } from './remove-part.ts';

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
  }),
});

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
      });
      return context.read.component.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
