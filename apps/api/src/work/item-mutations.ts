import { WaitingFor } from '@fairlead/database';
import { builder } from '../builder.ts';
import { AccessInput } from '../catalogue/schema.ts';
import { keyOf } from '../ids.ts';
import { NotedInput, notedWords } from './device-inputs.ts';
import { finishItem } from './finish-item.ts';
import { initialItem } from './initial-item.ts';
import { putOffItem } from './put-off-item.ts';
import { readCautions } from './read-cautions.ts';
import { reopenItem } from './reopen-item.ts';
import { resumeItem } from './resume-item.ts';
import { waitItem } from './wait-item.ts';

const itemId = 'The item.';
const ItemInput = builder.inputType('ItemInput', {
  description: 'One item.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: itemId }),
    noted: t.field({ type: NotedInput, description: notedWords }),
  }),
});
const ItemReasonInput = builder.inputType('ItemReasonInput', {
  description: 'One item, and why.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: itemId }),
    reason: t.string({ required: true, description: 'Why, 3 to 500 characters.' }),
    noted: t.field({ type: NotedInput, description: notedWords }),
  }),
});
const WaitItemInput = builder.inputType('WaitItemInput', {
  description: 'That an item waits.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: itemId }),
    waitingFor: t.field({ type: WaitingFor, required: true, description: 'For what.' }),
    note: t.string({ description: 'More of it, at most 500 characters.' }),
    noted: t.field({ type: NotedInput, description: notedWords }),
  }),
});
const FinishItemInput = builder.inputType('FinishItemInput', {
  description: 'That an item is done.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: itemId }),
    workDone: t.string({
      required: true,
      description:
        'The work performed, as it will stand in the record entry, 3 to 4,000 characters.',
    }),
    foundAccess: t.field({ type: AccessInput, description: 'The place as it was found.' }),
    noted: t.field({ type: NotedInput, description: notedWords }),
  }),
});
const InitialItemInput = builder.inputType('InitialItemInput', {
  description: 'An initial under an item.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: itemId }),
    second: t.boolean({
      required: true,
      description: 'The second, independent inspection of a critical item.',
    }),
    firstId: t.id({
      description:
        'For a second inspection that is sent later: the first initial (its ItemEvent) that stood there when it was made. It is refused where that one no longer counts.',
    }),
    noted: t.field({ type: NotedInput, description: notedWords }),
  }),
});

builder.mutationFields((t) => {
  const changed = { type: 'WorkItem', errors: {} } as const;
  return {
    readCautions: t.prismaField({
      ...changed,
      description: 'Says that the person signed in has read the cautions of an item.',
      args: { input: t.arg({ type: ItemInput, required: true, description: 'Which.' }) },
      resolve: async (query, _, { input }, context) => {
        const id = await readCautions(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    waitItem: t.prismaField({
      ...changed,
      description: 'Says that an item waits, and for what.',
      args: {
        input: t.arg({ type: WaitItemInput, required: true, description: 'Which, and for what.' }),
      },
      resolve: async (query, _, { input }, context) => {
        const id = await waitItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          waitingFor: input.waitingFor,
          note: input.note ?? '',
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    resumeItem: t.prismaField({
      ...changed,
      description: 'Says that what an item waited for has come.',
      args: { input: t.arg({ type: ItemInput, required: true, description: 'Which.' }) },
      resolve: async (query, _, { input }, context) => {
        const id = await resumeItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    finishItem: t.prismaField({
      ...changed,
      description: 'Says that an item is done. Refused while a clock runs on it.',
      args: {
        input: t.arg({
          type: FinishItemInput,
          required: true,
          description: 'Which, and what was done.',
        }),
      },
      resolve: async (query, _, { input }, context) => {
        const id = await finishItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          workDone: input.workDone,
          foundAccess: input.foundAccess ?? null,
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    reopenItem: t.prismaField({
      ...changed,
      description: 'Takes up again an item that was done, inspected or put off.',
      args: {
        input: t.arg({ type: ItemReasonInput, required: true, description: 'Which, and why.' }),
      },
      resolve: async (query, _, { input }, context) => {
        const id = await reopenItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          reason: input.reason,
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    putOffItem: t.prismaField({
      ...changed,
      description: 'Says that an item is not done on this visit.',
      args: {
        input: t.arg({ type: ItemReasonInput, required: true, description: 'Which, and why.' }),
      },
      resolve: async (query, _, { input }, context) => {
        const id = await putOffItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          reason: input.reason,
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
    initialItem: t.prismaField({
      ...changed,
      description: "An inspector's initial under one finished item.",
      args: { input: t.arg({ type: InitialItemInput, required: true, description: 'Which.' }) },
      resolve: async (query, _, { input }, context) => {
        const id = await initialItem(context, {
          itemId: keyOf('WorkItem', input.itemId, 'itemId'),
          second: input.second,
          firstId: input.firstId ? keyOf('ItemEvent', input.firstId, 'firstId') : null,
          noted: input.noted ?? null,
        });
        return context.read.workItem.findUniqueOrThrow({ ...query, where: { id } });
      },
    }),
  };
});
