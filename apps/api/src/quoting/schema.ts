import { builder } from '../builder.ts';
import { counted } from '../counted.ts';
import { keyOf } from '../ids.ts';
import { draftQuote } from './draft-quote.ts';
import { estimateTask } from './estimate-task.ts';
import { EstimateType } from './estimate-types.ts';
import { forecastQuote } from './forecast-quote.ts';
import { QuoteForecast } from './forecast-types.ts';
import {
  DraftQuoteInput,
  linesWanted,
  offerWanted,
  QuoteForecastInput,
  RecordDecisionInput,
  ReviseQuoteInput,
  SendQuoteInput,
  TellFindingInput,
} from './quote-inputs.ts';
import './price-schema.ts';
import './quote-types.ts';
import { recordDecision } from './record-decision.ts';
import { reviseQuote } from './revise-quote.ts';
import { sendQuote } from './send-quote.ts';
import { tellFinding } from './tell-finding.ts';

builder.queryFields((t) => ({
  estimateTask: t.field({
    type: EstimateType,
    errors: {},
    description: 'How long a task will take on an aircraft, and why.',
    args: {
      taskId: t.arg.id({ required: true, description: 'The task.' }),
      aircraftId: t.arg.id({ required: true, description: 'The aircraft that it is done on.' }),
      mechanicId: t.arg.id({ description: 'Who will do it; left out: whoever is free.' }),
      usePrior: t.arg.boolean({
        required: true,
        defaultValue: true,
        description: "False: only this task's own times count, as in a textbook.",
      }),
    },
    resolve: (_, { taskId, aircraftId, mechanicId, usePrior }, context) =>
      estimateTask(context, {
        taskId: keyOf('Task', taskId, 'taskId'),
        aircraftId: keyOf('Aircraft', aircraftId, 'aircraftId'),
        mechanicId: mechanicId ? keyOf('Person', mechanicId, 'mechanicId') : null,
        usePrior,
      }),
  }),
  quoteForecast: t.field({
    type: QuoteForecast,
    errors: {},
    description: 'What a draft of these lines would say. Nothing is kept.',
    args: {
      input: t.arg({ type: QuoteForecastInput, required: true, description: 'What to forecast.' }),
    },
    resolve: (_, { input }, context) =>
      forecastQuote(context, offerWanted(input), {
        mechanicId: input.mechanicId ? keyOf('Person', input.mechanicId, 'mechanicId') : null,
        beginsOn: input.beginsOn ?? null,
      }),
  }),
  quotes: t.prismaConnection(
    {
      type: 'Quote',
      cursor: 'id',
      totalCount: (_, __, { read }) => read.quote.count(),
      description: 'The quotes of the shop, newest first.',
      resolve: (query, _, __, { read }) =>
        read.quote.findMany({ ...query, orderBy: { number: 'desc' } }),
    },
    counted,
  ),
}));

builder.mutationFields((t) => ({
  draftQuote: t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      'Drafts a quote, for a visit or for one finding. For the front desk and the manager.',
    args: {
      input: t.arg({
        type: DraftQuoteInput,
        required: true,
        description: 'What to quote, and to whom.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const { title, expiresOn, terms, clientEventId } = input;
      const id = await draftQuote(context, {
        ...offerWanted(input),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        title: title ?? null,
        expiresOn: expiresOn ?? null,
        terms: terms ?? null,
        clientEventId: clientEventId ?? null,
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  reviseQuote: t.prismaField({
    type: 'Quote',
    errors: {},
    description: 'Adds the next revision of a quote. For the front desk and the manager.',
    args: {
      input: t.arg({
        type: ReviseQuoteInput,
        required: true,
        description: 'What the next revision offers.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await reviseQuote(context, {
        ...linesWanted(input),
        quoteId: keyOf('Quote', input.quoteId, 'quoteId'),
        fromRevision: input.fromRevision,
        expiresOn: input.expiresOn ?? null,
        terms: input.terms ?? null,
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  tellFinding: t.prismaField({
    type: 'Package',
    errors: {},
    description:
      'Keeps what the manager tells of earlier years: in so many of these packages this work turned up. For the manager.',
    args: {
      input: t.arg({ type: TellFindingInput, required: true, description: 'What was found.' }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await tellFinding(context, {
        packageId: keyOf('Package', input.packageId, 'packageId'),
        taskId: keyOf('Task', input.taskId, 'taskId'),
        modelId: input.modelId ? keyOf('AircraftModel', input.modelId, 'modelId') : null,
        seen: input.seen,
        of: input.of,
        parts: input.parts ?? null,
        note: input.note ?? null,
      });
      return context.read.package.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  sendQuote: t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      'Records that the newest revision went to the owner; by e-mail, it is mailed with its PDF and their private link. For the front desk and the manager.',
    args: {
      input: t.arg({
        type: SendQuoteInput,
        required: true,
        description: 'Which revision, and by which way.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await sendQuote(context, {
        ...input,
        quoteId: keyOf('Quote', input.quoteId, 'quoteId'),
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  recordDecision: t.prismaField({
    type: 'Quote',
    errors: {},
    description:
      "Records the owner's answer. Their first yes opens the order, or adds the correction to it. For the front desk and the manager.",
    args: {
      input: t.arg({
        type: RecordDecisionInput,
        required: true,
        description: 'Who answered what, how, and how far it goes.',
      }),
    },
    resolve: async (query, _, { input }, context) => {
      const id = await recordDecision(context, {
        ...input,
        quoteId: keyOf('Quote', input.quoteId, 'quoteId'),
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        ceiling: input.ceiling ?? null,
        decidedAt: input.decidedAt ?? null,
        note: input.note ?? null,
      });
      return context.read.quote.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
