import { Channel, ChargeKind, Choice, Pricing } from '@fairlead/database';
import { builder, type Types } from '../builder.ts';
import { keyOf } from '../ids.ts';
import type { WantedCharge } from './charges.ts';

type InputFields = PothosSchemaTypes.InputFieldBuilder<Types, 'InputObject'>;

const TaskWanted = builder.inputType('QuoteTaskInput', {
  description: 'A task to quote, and how it is sold.',
  fields: (t) => ({
    taskId: t.id({ required: true, description: 'The task.' }),
    pricing: t.field({
      type: Pricing,
      description: 'How it is sold; left out: by time and materials.',
    }),
    price: t.field({
      type: 'Minor',
      description:
        'Net, more than 0: the fixed price, or what is not to be exceeded; needed for these, and for nothing else.',
    }),
  }),
});

const PartWanted = builder.inputType('QuotePartInput', {
  description: 'A part to quote.',
  fields: (t) => ({
    partId: t.id({ required: true, description: 'The part.' }),
    quantity: t.field({
      type: 'Decimal',
      required: true,
      description: 'How many units: more than 0, at most 10,000, with at most 3 decimals.',
    }),
  }),
});

const ChargeWanted = builder.inputType('QuoteChargeInput', {
  description:
    'What is charged besides work and parts. Needed is one of a price and a cost; of shop supplies, one of a price and a share of the labour, or neither: then by the shop’s rule.',
  fields: (t) => ({
    kind: t.field({ type: ChargeKind, required: true, description: 'What it is.' }),
    title: t.string({
      description:
        'In words, 3 to 200 characters; needed for outside work and other things; else left out: as it is called.',
    }),
    price: t.field({ type: 'Minor', description: 'What it is sold for, net.' }),
    cost: t.field({ type: 'Minor', description: 'What it costs the shop, net.' }),
    percent: t.field({
      type: 'Decimal',
      description:
        'Mark-up on the cost, or the share of the likely labour that supplies are; per cent, 0 to 1000.',
    }),
    atMost: t.field({ type: 'Minor', description: 'Of shop supplies: no more than this, net.' }),
  }),
});

/** What a quote is about: a package, a finding, or neither. */
const about = (t: InputFields) => ({
  packageId: t.id({ description: 'A package of tasks.' }),
  findingId: t.id({ description: 'The finding that it is for; not together with a package.' }),
});
const workWanted = (t: InputFields) => ({
  tasks: t.field({
    type: [TaskWanted],
    required: true,
    defaultValue: [],
    description: 'Tasks, besides those of the package; at most 150.',
  }),
  parts: t.field({
    type: [PartWanted],
    required: true,
    defaultValue: [],
    description: 'Parts; at most 100.',
  }),
  charges: t.field({
    type: [ChargeWanted],
    required: true,
    defaultValue: [],
    description: 'What is charged besides; at most 30.',
  }),
});

export const QuoteForecastInput = builder.inputType('QuoteForecastInput', {
  description: 'What to forecast: a package, or a finding, or neither, with tasks and parts.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    contactId: t.id({
      description: 'Who would pay, so that their exemptions from tax count; left out: nobody yet.',
    }),
    ...about(t),
    ...workWanted(t),
    mechanicId: t.id({
      description: 'Who is supposed to do the work; left out: whoever is free.',
    }),
    beginsOn: t.field({
      type: 'Date',
      description:
        'On which day it is supposed to begin, today to 365 days on; left out: as planned, else today.',
    }),
  }),
});

export const DraftQuoteInput = builder.inputType('DraftQuoteInput', {
  description: 'A quote for a visit, or for one finding of a visit under way.',
  fields: (t) => ({
    aircraftId: t.id({ required: true, description: 'The aircraft.' }),
    contactId: t.id({
      required: true,
      description: 'To whom: an owner, operator or payer of the aircraft.',
    }),
    ...about(t),
    title: t.string({
      description:
        'What to call it, at most 200 characters; left out: as the package or the finding.',
    }),
    ...workWanted(t),
    expiresOn: t.field({
      type: 'Date',
      description: 'The last day on which it can be accepted; left out: 30 days on.',
    }),
    terms: t.string({ description: 'What else holds, at most 4,000 characters.' }),
    clientEventId: t.string({
      description:
        'A UUID that the page makes for each new quote, so that a draft sent twice is one quote.',
    }),
  }),
});

export const ReviseQuoteInput = builder.inputType('ReviseQuoteInput', {
  description: "The next revision of a quote, at today's prices. Its package or finding stays.",
  fields: (t) => ({
    quoteId: t.id({ required: true, description: 'The quote.' }),
    fromRevision: t.int({
      required: true,
      description: 'The revision that this starts from: the newest.',
    }),
    ...workWanted(t),
    expiresOn: t.field({
      type: 'Date',
      description: 'The last day on which it can be accepted; left out: 30 days on.',
    }),
    terms: t.string({ description: 'What else holds; left out: as before.' }),
  }),
});

export const SendQuoteInput = builder.inputType('SendQuoteInput', {
  description: 'A revision that goes to the owner.',
  fields: (t) => ({
    quoteId: t.id({ required: true, description: 'The quote.' }),
    revision: t.int({ required: true, description: 'The revision: the newest.' }),
    channel: t.field({ type: Channel, required: true, description: 'By which way it goes.' }),
  }),
});

export const TellFindingInput = builder.inputType('TellFindingInput', {
  description: 'How often some work turned up in a package, in the years before.',
  fields: (t) => ({
    packageId: t.id({ required: true, description: 'The package.' }),
    taskId: t.id({ required: true, description: 'The work that corrects what is found.' }),
    modelId: t.id({ description: 'On this model; left out: on all together.' }),
    seen: t.int({ required: true, description: 'Times it was found, 0 or more.' }),
    of: t.int({ required: true, description: 'Packages done, at least as many.' }),
    parts: t.field({ type: 'Minor', description: 'What its parts come to, net, 0 or more.' }),
    note: t.string({ description: 'Where that is known from, at most 1,000 characters.' }),
  }),
});

export const RecordDecisionInput = builder.inputType('RecordDecisionInput', {
  description: "The owner's answer to a revision.",
  fields: (t) => ({
    quoteId: t.id({ required: true, description: 'The quote.' }),
    revision: t.int({
      required: true,
      description: 'The revision that was answered: the newest, and sent.',
    }),
    contactId: t.id({ required: true, description: 'Who answered: a contact of the aircraft.' }),
    choice: t.field({ type: Choice, required: true, description: 'What they chose.' }),
    channel: t.field({ type: Channel, required: true, description: 'By which way.' }),
    wordsShown: t.string({
      required: true,
      description: 'What was read out or shown to them, at most 4,000 characters.',
    }),
    ceiling: t.field({
      type: 'Minor',
      description:
        'For a yes: how far it goes, net, 0 or more; left out: as far as nine in ten should come out under.',
    }),
    decidedAt: t.field({ type: 'DateTime', description: 'When they answered; left out: now.' }),
    note: t.string({ description: 'What else was said, at most 2,000 characters.' }),
  }),
});

interface LinesGiven {
  tasks: readonly {
    taskId: string;
    pricing?: Pricing | null | undefined;
    price?: bigint | null | undefined;
  }[];
  parts: readonly { partId: string; quantity: string }[];
  charges: readonly (Pick<WantedCharge, 'kind'> & {
    [Key in Exclude<keyof WantedCharge, 'kind'>]?: WantedCharge[Key] | undefined;
  })[];
}

/** The keys behind the tasks and parts that a caller gave. */
export const linesWanted = ({ tasks, parts, charges }: LinesGiven) => ({
  charges: charges.map(({ kind, title, price, cost, percent, atMost }) => ({
    kind,
    title: title ?? null,
    price: price ?? null,
    cost: cost ?? null,
    percent: percent ?? null,
    atMost: atMost ?? null,
  })),
  tasks: tasks.map(({ taskId, pricing, price }) => ({
    taskId: keyOf('Task', taskId, 'taskId'),
    pricing: pricing ?? 'time_and_materials',
    price: price ?? null,
  })),
  parts: parts.map(({ partId, quantity }) => ({
    partId: keyOf('Part', partId, 'partId'),
    quantity,
  })),
});

interface OfferGiven extends LinesGiven {
  aircraftId: string;
  contactId?: string | null | undefined;
  packageId?: string | null | undefined;
  findingId?: string | null | undefined;
}

/** The keys behind all that a caller wants quoted. */
export const offerWanted = ({
  aircraftId,
  contactId,
  packageId,
  findingId,
  ...lines
}: OfferGiven) => ({
  aircraftId: keyOf('Aircraft', aircraftId, 'aircraftId'),
  contactId: contactId ? keyOf('Contact', contactId, 'contactId') : null,
  packageId: packageId ? keyOf('Package', packageId, 'packageId') : null,
  findingId: findingId ? keyOf('Finding', findingId, 'findingId') : null,
  ...linesWanted(lines),
});
