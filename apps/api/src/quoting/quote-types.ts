import { Channel, Choice } from '@fairlead/database';
import { billedTimeOf, sayBilledTime } from '../billed-time.ts';
import { builder } from '../builder.ts';
import { quoteFacts, quoteState, type quoteStates } from '../states.ts';
import { shopToday } from '../today.ts';
import { WithFindingsType } from './findings-types.ts';
import { QuotedHours } from './forecast-types.ts';
import { withFindingsOf } from './likely-findings.ts';
import './quote-line-types.ts';
import { type Recomputed, recomputeRevision } from './recompute-revision.ts';

export const QuoteState = builder.enumType('QuoteState', {
  description: 'How far an offer has come. Derived from what happened to its newest revision.',
  values: {
    draft: { description: 'Not sent.' },
    sent: { description: 'With the owner, who has not said yes or no.' },
    accepted: { description: 'The owner said go ahead.' },
    declined: { description: 'The owner said not now.' },
    lapsed: { description: 'Its last day passed without a yes or a no.' },
  } satisfies Record<(typeof quoteStates)[number], object>,
});
builder.enumType(Channel, {
  name: 'Channel',
  description: 'By which way something was said or sent.',
  values: {
    in_person: { description: 'Face to face.' },
    telephone: { description: 'By telephone.' },
    email: { description: 'By e-mail.' },
    owner_page: { description: "On the owner's own page." },
  },
});
builder.enumType(Choice, {
  name: 'Choice',
  description: 'What the owner chose.',
  values: {
    go_ahead: { description: 'Do the work, up to what was agreed.' },
    not_now: { description: 'Leave it.' },
    talk_first: { description: 'Neither yet: they want to talk about it.' },
  },
});

builder.prismaNode('Quote', {
  id: { field: 'id' },
  description: 'An offer: for a visit, or for one finding of a visit under way.',
  fields: (t) => ({
    number: t.exposeInt('number', { description: 'Its number, from 1 in the shop.' }),
    title: t.exposeString('title', { description: 'What it is called.' }),
    state: t.field({
      type: QuoteState,
      description: 'How far it has come.',
      select: quoteFacts,
      resolve: async (quote, _, context) => quoteState(quote, await shopToday(context)),
    }),
    aircraft: t.relation('aircraft', { description: 'For which aircraft.' }),
    contact: t.relation('contact', { description: 'To whom.' }),
    package: t.relation('package', {
      nullable: true,
      description: 'The package that it was made from.',
    }),
    finding: t.relation('finding', {
      nullable: true,
      description: 'The finding that it is for; null for a visit.',
    }),
    order: t.relation('order', {
      nullable: true,
      description: "The order that the owner's yes made, or that the finding is on.",
    }),
    createdAt: t.expose('createdAt', {
      type: 'DateTime',
      description: 'When it was first drafted.',
    }),
    newest: t.prismaField({
      type: 'QuoteRevision',
      description: 'The revision that counts.',
      select: (_args, _context, nested) => ({
        revisions: nested({ orderBy: { revision: 'desc' }, take: 1 }),
      }),
      resolve: (query, { id, revisions: [newest] }, _, { read }) =>
        newest ??
        read.quoteRevision.findFirstOrThrow({
          ...query,
          where: { quoteId: id },
          orderBy: { revision: 'desc' },
        }),
    }),
    revisions: t.relation('revisions', {
      description: 'All of them, newest first.',
      query: { orderBy: { revision: 'desc' } },
    }),
  }),
});

const RecomputedHours = builder.objectRef<Recomputed>('RecomputedHours').implement({
  description: 'Whether the hours of a revision can be had again from the model that made them.',
  fields: (t) => ({
    same: t.exposeBoolean('same', {
      description: 'Every figure of hours came out the same, to the last digit kept.',
    }),
    modelNumber: t.exposeInt('modelNumber', { description: 'The number of the model.' }),
    fittedAt: t.expose('fittedAt', { type: 'DateTime', description: 'When it was fitted.' }),
    sentence: t.exposeString('sentence', { description: 'The same in words.' }),
  }),
});

builder.prismaNode('QuoteRevision', {
  id: { field: 'id' },
  description:
    'One numbered version of a quote, never changed. Amounts are net; those of the whole come from the simulated sum of the hours, not from adding the lines.',
  fields: (t) => ({
    revision: t.exposeInt('revision', { description: 'Its number, from 1.' }),
    draftedAt: t.expose('draftedAt', { type: 'DateTime', description: 'When it was drafted.' }),
    draftedBy: t.prismaField({
      type: 'Person',
      nullable: true,
      description: 'Who drafted it.',
      select: { draftedById: true },
      resolve: (query, { draftedById }, _, { read }) =>
        draftedById ? read.person.findUnique({ ...query, where: { id: draftedById } }) : null,
    }),
    expiresOn: t.expose('expiresOn', {
      type: 'Date',
      description: 'The last day on which it can be accepted.',
    }),
    terms: t.exposeString('terms', { description: 'What else holds.' }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code of its amounts.' }),
    low: t.expose('lowMinor', { type: 'Minor', description: 'One in ten comes out under this.' }),
    likely: t.expose('likelyMinor', {
      type: 'Minor',
      description: 'As likely over as under; what is firm counts in full.',
    }),
    p80: t.expose('p80Minor', { type: 'Minor', description: 'Eight in ten come out under this.' }),
    high: t.expose('highMinor', {
      type: 'Minor',
      description: 'Nine in ten should come out under this.',
    }),
    tax: t.expose('taxMinor', {
      type: 'Minor',
      description: "Tax on the likely amount, by the shop's own table.",
    }),
    hours: t.field({
      type: QuotedHours,
      description: 'Hands-on hours of all its tasks together.',
      resolve: (revision) => revision,
    }),
    billedAs: t.string({
      nullable: true,
      description:
        'By which rule for billed time its amounts were foretold; null: by hours as they are worked, as before there was one.',
      select: { billingStep: true, billingRounding: true, billingMinimum: true },
      resolve: ({ billingStep, billingRounding, billingMinimum }) =>
        billingStep && billingRounding
          ? sayBilledTime(billedTimeOf({ billingStep, billingRounding, billingMinimum }))
          : null,
    }),
    modelNumber: t.int({
      nullable: true,
      description: 'The number of the hours model that made its hours; null where none is named.',
      select: { hoursModel: { select: { number: true } } },
      resolve: ({ hoursModel }) => hoursModel?.number ?? null,
    }),
    recomputed: t.field({
      type: RecomputedHours,
      nullable: true,
      description:
        'What the model that made the hours says when it is asked again; null where none is named.',
      select: { id: true },
      resolve: ({ id }, _, context) => recomputeRevision(context, id),
    }),
    withFindings: t.field({
      type: WithFindingsType,
      nullable: true,
      description: 'With what is likely to be found; null where nothing is.',
      resolve: ({ withFindings }) => withFindingsOf(withFindings),
    }),
    lines: t.relation('lines', {
      description: 'What is offered, in order.',
      query: { orderBy: { position: 'asc' } },
    }),
    sentAt: t.field({
      type: 'DateTime',
      nullable: true,
      description: 'When it was sent; null: it was not.',
      select: { sendings: { select: { sentAt: true } } },
      resolve: ({ sendings }) => sendings[0]?.sentAt ?? null,
    }),
    sentBy: t.field({
      type: Channel,
      nullable: true,
      description: 'By which way it was sent.',
      select: { sendings: { select: { channel: true } } },
      resolve: ({ sendings }) => sendings[0]?.channel ?? null,
    }),
    decisions: t.relation('decisions', {
      description: 'What the owner answered, newest first.',
      query: { orderBy: { recordedAt: 'desc' } },
    }),
  }),
});

builder.prismaNode('Decision', {
  id: { field: 'id' },
  description: 'What the owner answered, as it was recorded. Never changed.',
  fields: (t) => ({
    choice: t.expose('choice', { type: Choice, description: 'What they chose.' }),
    contact: t.relation('contact', { description: 'Who answered.' }),
    channel: t.expose('channel', { type: Channel, description: 'By which way.' }),
    wordsShown: t.exposeString('wordsShown', {
      description: 'What was read out or shown to them.',
    }),
    ceiling: t.expose('ceilingMinor', {
      type: 'Minor',
      nullable: true,
      description: 'How far a yes goes, net; null for any other answer.',
    }),
    currency: t.exposeString('currency', { description: 'ISO 4217 code of the ceiling.' }),
    decidedAt: t.expose('decidedAt', { type: 'DateTime', description: 'When they answered.' }),
    recordedAt: t.expose('recordedAt', { type: 'DateTime', description: 'When it was recorded.' }),
    recordedBy: t.prismaField({
      type: 'Person',
      nullable: true,
      description: 'Who recorded it.',
      select: { recordedById: true },
      resolve: (query, { recordedById }, _, { read }) =>
        recordedById ? read.person.findUnique({ ...query, where: { id: recordedById } }) : null,
    }),
    note: t.exposeString('note', { description: 'What else was said.' }),
  }),
});
