import { DueEventKind, DueKind, DueRule } from '@fairlead/database';
import { builder } from '../builder.ts';
import { keyOf } from '../ids.ts';
import { addDueItem } from './add-due-item.ts';
import { addDueToQuote } from './add-due-to-quote.ts';
import { countsGiven, countsUnder } from './counts.ts';
import { CountsInput } from './counts-schema.ts';
import { makeFeed } from './feeds.ts';
import { quoteDue } from './quote-due.ts';
import { recordDueEvent } from './record-due-event.ts';

const AddDueItemInput = builder.inputType('AddDueItemInput', {
  description: 'Something that falls due on an aircraft.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    componentId: t.id({ description: 'The part that it is about; fitted to the aircraft.' }),
    taskId: t.id({ description: "The shop's task for it, so that it goes onto a quote." }),
    kind: t.field({ type: DueKind, required: true, description: 'What it is.' }),
    title: t.string({ required: true, description: 'Its name, 2 to 200 characters.' }),
    number: t.string({ description: 'Number of a directive or bulletin.' }),
    revision: t.string({ description: 'Its revision.' }),
    source: t.string({
      required: true,
      description: 'Where its terms stand, 2 to 300 characters.',
    }),
    rule: t.field({ type: DueRule, required: true, description: 'By which rule it is reckoned.' }),
    everyHundredths: t.int({ description: 'Every so many hundredths of an hour.' }),
    everyMonths: t.int({ description: 'Every so many months, to the day.' }),
    everyCalendarMonths: t.int({
      description: 'Every so many calendar months, to the end of one.',
    }),
    everyDays: t.int({ description: 'Every so many days.' }),
    everyCounts: t.field({
      type: CountsInput,
      description: 'Every so many cycles, landings or starts.',
    }),
    limitCounts: t.field({
      type: CountsInput,
      description: 'Of a life, or of what is done once: the aircraft’s count, of a part its own.',
    }),
    limitHundredths: t.int({
      description: 'Of a life, hundredths of an hour; of what is done once, the time in service.',
    }),
    limitDate: t.field({ type: 'Date', description: 'Not later than this day.' }),
    whicheverLast: t.boolean({
      defaultValue: false,
      description: 'Of several, the one that comes last counts; else the first.',
    }),
  }),
});
const DueEventInput = builder.inputType('DueEventInput', {
  description: 'What happened to something due.',
  fields: (t) => ({
    itemId: t.id({ required: true, description: 'The item.' }),
    kind: t.field({ type: DueEventKind, required: true, description: 'What happened.' }),
    doneOn: t.field({ type: 'Date', required: true, description: 'When; not after today.' }),
    tisHundredths: t.int({ description: 'Time in service then, hundredths of an hour.' }),
    counts: t.field({
      type: CountsInput,
      description: 'Counts of the aircraft then; needed of what is counted.',
    }),
    method: t.string({
      required: true,
      description: 'How it was complied with, or why it ended: 2 to 500 characters.',
    }),
  }),
});
const QuoteDueInput = builder.inputType('QuoteDueInput', {
  description: 'Things due that are quoted together.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    contactId: t.id({ required: true, description: 'To whom.' }),
    itemIds: t.idList({ required: true, description: 'What falls due.' }),
    findingIds: t.idList({
      description: 'Findings that were put off; with what falls due 1 to 100.',
    }),
    packageId: t.id({
      description: 'A package that it goes along with; its own tasks are not doubled.',
    }),
    clientEventId: t.string({
      description: 'A UUID that the page makes, so that a draft sent twice is one.',
    }),
  }),
});
const AddDueToQuoteInput = builder.inputType('AddDueToQuoteInput', {
  description: 'Things due that are added to a draft.',
  fields: (t) => ({
    quoteId: t.id({ required: true, description: 'The draft, for a visit of the same aircraft.' }),
    fromRevision: t.int({ required: true, description: 'The revision that was looked at.' }),
    itemIds: t.idList({ required: true, description: 'What falls due.' }),
    findingIds: t.idList({
      description: 'Findings that were put off; with what falls due 1 to 100.',
    }),
  }),
});

interface FeedAddress {
  path: string;
}
const FeedAddressType = builder.objectRef<FeedAddress>('DueFeedAddress').implement({
  description: 'An address from which a calendar program reads what falls due.',
  fields: (t) => ({
    path: t.exposeString('path', {
      description: 'Its path below the web origin. Told once; whoever has it can read.',
    }),
  }),
});

builder.mutationFields((t) => ({
  addDueItem: t.prismaField({
    type: 'DueItem',
    errors: {},
    description: 'Adds something that falls due on an aircraft.',
    args: {
      input: t.arg({ type: AddDueItemInput, required: true, description: 'What, and when.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addDueItem(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        componentId: input.componentId
          ? keyOf('Component', input.componentId, 'componentId')
          : null,
        taskId: input.taskId ? keyOf('Task', input.taskId, 'taskId') : null,
        ...{ kind: input.kind, title: input.title, source: input.source, rule: input.rule },
        number: input.number ?? null,
        revision: input.revision ?? null,
        everyHundredths: input.everyHundredths ?? null,
        everyMonths: input.everyMonths ?? null,
        everyCalendarMonths: input.everyCalendarMonths ?? null,
        everyDays: input.everyDays ?? null,
        ...countsUnder('every', countsGiven(input.everyCounts)),
        ...countsUnder('limit', countsGiven(input.limitCounts)),
        limitHundredths: input.limitHundredths ?? null,
        limitDate: input.limitDate ?? null,
        whicheverLast: input.whicheverLast ?? false,
      });
      return context.read.dueItem.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  recordDueEvent: t.prismaField({
    type: 'DueItem',
    errors: {},
    description:
      'Records that something due was complied with, or falls due no more. For an inspector or the manager.',
    args: { input: t.arg({ type: DueEventInput, required: true, description: 'What happened.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await recordDueEvent(context, {
        itemId: keyOf('DueItem', input.itemId, 'itemId'),
        ...{ kind: input.kind, doneOn: input.doneOn, method: input.method },
        tisHundredths: input.tisHundredths ?? null,
        counts: countsGiven(input.counts),
      });
      return context.read.dueItem.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  quoteDue: t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      'Drafts one quote for what falls due: each task once. For the front desk and the manager.',
    args: {
      input: t.arg({ type: QuoteDueInput, required: true, description: 'What goes onto it.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await quoteDue(context, {
        aircraftId: keyOf('Aircraft', input.aircraftId, 'aircraftId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        itemIds: input.itemIds.map((item) => keyOf('DueItem', item, 'itemIds')),
        findingIds: (input.findingIds ?? []).map((each) => keyOf('Finding', each, 'findingIds')),
        packageId: input.packageId ? keyOf('Package', input.packageId, 'packageId') : null,
        clientEventId: input.clientEventId ?? null,
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addDueToQuote: t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      'Adds what falls due to a draft, as its next revision; what it does or opens already does not come again. For the front desk and the manager.',
    args: {
      input: t.arg({ type: AddDueToQuoteInput, required: true, description: 'What, to which.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await addDueToQuote(context, {
        quoteId: keyOf('Quote', input.quoteId, 'quoteId'),
        fromRevision: input.fromRevision,
        itemIds: input.itemIds.map((item) => keyOf('DueItem', item, 'itemIds')),
        findingIds: (input.findingIds ?? []).map((each) => keyOf('Finding', each, 'findingIds')),
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  makeDueFeed: t.field({
    type: FeedAddressType,
    errors: {},
    description:
      'Makes an address from which a calendar reads what falls due. The one before opens nothing any more.',
    args: { aircraftId: t.arg.id({ description: 'Of one aircraft; left out: of all.' }) },
    resolve: async (_, { aircraftId }, context) => ({
      path: `/due/${await makeFeed(context, aircraftId ? keyOf('Aircraft', aircraftId, 'aircraftId') : null)}.ics`,
    }),
  }),
}));
