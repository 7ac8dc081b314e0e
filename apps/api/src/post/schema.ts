import { MailEventKind } from '@fairlead/database';
import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { counted } from '../counted.ts';
import { globalId, keyOf } from '../ids.ts';
import { mailFacts, mailState, type mailStates } from '../states.ts';
import { putMailAway } from './put-mail-away.ts';
import { failedMails, openMailIds } from './queries.ts';
import { mailTextShown } from './show-mail.ts';
import { tryMailAgain } from './try-mail-again.ts';

const MailStateType = builder.enumType('MailState', {
  description: 'How far a mail has come. Derived from what happened to it.',
  values: {
    waits: { description: 'Waits for its first or its next try, or is being handed over.' },
    sent: { description: 'The mail server took it.' },
    failed: { description: 'Refused for good, or given up after five days.' },
    kept: { description: 'No mail server was set when it was its turn: it is kept here instead.' },
    put_away: { description: 'Somebody put it away: it does not go.' },
  } satisfies Record<(typeof mailStates)[number], object>,
});

builder.enumType(MailEventKind, {
  name: 'MailEventKind',
  description: 'What happened to a mail.',
  values: {
    tried: { description: 'Handing it to the mail server began.' },
    sent: { description: 'The mail server took it.' },
    delayed: { description: 'Not now: it is tried again.' },
    refused: { description: 'Refused for good.' },
    given_up: { description: 'Not taken within five days.' },
    kept: { description: 'No mail server is set: kept here.' },
    asked_again: { description: 'Somebody had it tried again.' },
    put_away: { description: 'Somebody put it away.' },
  },
});

builder.prismaNode('MailEvent', {
  id: { field: 'id' },
  description: 'Something that happened to a mail.',
  fields: (t) => ({
    kind: t.expose('kind', { type: MailEventKind, description: 'What.' }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.relation('by', { nullable: true, description: 'Who; null: the program.' }),
    words: t.exposeString('words', {
      description: "The mail server's own words, or why it was put away.",
    }),
    nextAt: t.expose('nextAt', {
      type: 'DateTime',
      nullable: true,
      description: 'For a delay: when it is tried next.',
    }),
  }),
});

builder.prismaNode('MailPaper', {
  id: { field: 'id' },
  description: 'A paper that goes with a mail.',
  fields: (t) => ({
    filename: t.string({
      nullable: true,
      description: 'Its name; null until it is drawn.',
      select: { files: { select: { filename: true } } },
      resolve: ({ files: [file] }) => file?.filename ?? null,
    }),
    bytes: t.int({
      nullable: true,
      description: 'How large it is; null until it is drawn.',
      select: { files: { select: { bytes: true } } },
      resolve: ({ files: [file] }) => file?.bytes ?? null,
    }),
    url: t.string({
      description: 'Where it is read as it went.',
      select: { id: true },
      resolve: ({ id }) => `/paper/mail/${globalId('MailPaper', id)}`,
    }),
  }),
});

builder.prismaNode('Mail', {
  id: { field: 'id' },
  description:
    'A mail of the shop to somebody outside or inside. For the front desk and the manager.',
  fields: (t) => ({
    to: t.exposeString('toAddress', { description: 'To which address.' }),
    toName: t.exposeString('toName', { description: 'To whom.' }),
    subject: t.exposeString('subject', { description: 'What stands over it.' }),
    text: t.field({
      type: 'String',
      description:
        'Its words. A private link in it is shown only where the mail is kept here, and an invitation only to the manager.',
      select: { id: true, shopId: true, text: true, link: true, ...mailFacts },
      resolve: (mail, _, context) => mailTextShown(context, mail),
    }),
    about: t.exposeString('about', { description: 'What it is about.' }),
    quote: t.relation('quote', { nullable: true, description: 'The quote that it is about.' }),
    order: t.relation('order', { nullable: true, description: 'The order that it is about.' }),
    invoice: t.relation('invoice', {
      nullable: true,
      description: 'The invoice that it is about.',
    }),
    queuedAt: t.expose('queuedAt', { type: 'DateTime', description: 'When it was asked for.' }),
    queuedBy: t.relation('queuedBy', {
      nullable: true,
      description: 'Who asked for it; null: the program, because of what somebody outside did.',
    }),
    state: t.field({
      type: MailStateType,
      description: 'How far it has come.',
      select: mailFacts,
      resolve: mailState,
    }),
    papers: t.relation('papers', {
      description: 'What goes with it.',
      query: { orderBy: { position: 'asc' } },
    }),
    events: t.relation('events', {
      description: 'What happened to it, in order.',
      query: { orderBy: { seq: 'asc' } },
    }),
  }),
});

builder.queryFields((t) => ({
  sendsMail: t.boolean({
    description: 'Whether a mail server is set. Where none is, mails are kept and shown.',
    resolve: (_, __, context) => context.sendsMail,
  }),
  mailsFailed: t.int({
    description:
      'How many mails failed and nobody has seen to yet. For the front desk and the manager.',
    resolve: async (_, __, context) => {
      await allow(context, 'front_desk', 'manager');
      return failedMails(context.read);
    },
  }),
  mails: t.prismaConnection(
    {
      type: 'Mail',
      cursor: 'id',
      args: {
        open: t.arg.boolean({ description: 'Only those that wait or failed.' }),
      },
      totalCount: async (_, { open }, { read }) =>
        open ? (await openMailIds(read)).length : read.mail.count(),
      description:
        'The mails of the shop, the last asked for first. For the front desk and the manager.',
      resolve: async (query, _, { open }, context) => {
        await allow(context, 'front_desk', 'manager');
        return context.read.mail.findMany({
          ...query,
          ...(open && { where: { id: { in: await openMailIds(context.read) } } }),
          orderBy: [{ queuedAt: 'desc' }, { id: 'desc' }],
        });
      },
    },
    counted,
  ),
}));

builder.mutationFields((t) => ({
  tryMailAgain: t.prismaField({
    type: 'Mail',
    errors: {},
    description:
      'Has a mail tried at once that waits, failed or was kept. For the front desk and the manager.',
    args: { mailId: t.arg.id({ required: true, description: 'Which mail.' }) },
    resolve: async (query, _, { mailId }, context) => {
      const id = await tryMailAgain(context, { mailId: keyOf('Mail', mailId, 'mailId') });
      return context.read.mail.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  putMailAway: t.prismaField({
    type: 'Mail',
    errors: {},
    description: 'Puts a mail away that is not to go. For the front desk and the manager.',
    args: {
      mailId: t.arg.id({ required: true, description: 'Which mail.' }),
      why: t.arg.string({ description: 'Why, at most 200 characters.' }),
    },
    resolve: async (query, _, { mailId, why }, context) => {
      const id = await putMailAway(context, {
        mailId: keyOf('Mail', mailId, 'mailId'),
        why: why ?? null,
      });
      return context.read.mail.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
}));
