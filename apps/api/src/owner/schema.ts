import { builder } from '../builder.ts';
import { globalId, keyOf } from '../ids.ts';
import { ownerLinks, revokeOwnerLink, type ShownLink } from './links.ts';
import { type MadeLink, makeOwnerLink } from './make-link.ts';

const Made = builder.objectRef<MadeLink>('MadeOwnerLink').implement({
  description: 'A private link just made. Only here is its address told: the shop keeps a hash.',
  fields: (t) => ({
    url: t.exposeString('url', { description: 'Its address on this site.' }),
    expiresAt: t.expose('expiresAt', { type: 'DateTime', description: 'Until when it opens.' }),
  }),
});

const Link = builder.objectRef<ShownLink>('OwnerLink').implement({
  description: "An owner's private link, without its secret.",
  fields: (t) => ({
    id: t.id({ description: 'Its id.', resolve: ({ id }) => globalId('OwnerLink', id) }),
    contactName: t.exposeString('contactName', { description: 'Whose answers it brings.' }),
    createdAt: t.expose('createdAt', { type: 'DateTime', description: 'When it was made.' }),
    expiresAt: t.expose('expiresAt', { type: 'DateTime', description: 'Until when it opens.' }),
    revokedAt: t.expose('revokedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When it was taken back; null: it was not.',
    }),
  }),
});

const MakeOwnerLinkInput = builder.inputType('MakeOwnerLinkInput', {
  description: 'What a private link opens, and for whom.',
  fields: (t) => ({
    orderId: t.id({ description: 'The order that it reaches; or name a quote.' }),
    quoteId: t.id({ description: 'The quote that it reaches, and the order that a yes makes.' }),
    contactId: t.id({ required: true, description: 'Whose answers it brings.' }),
    days: t.int({
      required: true,
      defaultValue: 30,
      description: 'For how many days it opens, 1 to 365.',
    }),
  }),
});

builder.queryFields((t) => ({
  ownerLinks: t.field({
    type: [Link],
    description:
      'Private links that reach an order or a quote, newest first. For the front desk and the manager.',
    args: {
      orderId: t.arg.id({ description: 'The order.' }),
      quoteId: t.arg.id({ description: 'The quote.' }),
    },
    resolve: (_, { orderId, quoteId }, context) =>
      ownerLinks(context, {
        orderId: orderId ? keyOf('WorkOrder', orderId, 'orderId') : null,
        quoteId: quoteId ? keyOf('Quote', quoteId, 'quoteId') : null,
      }),
  }),
}));

builder.mutationFields((t) => ({
  makeOwnerLink: t.field({
    type: Made,
    errors: {},
    description:
      'Makes a private link for somebody outside the shop. For the front desk and the manager.',
    args: {
      input: t.arg({
        type: MakeOwnerLinkInput,
        required: true,
        description: 'What it opens, for whom, and for how long.',
      }),
    },
    resolve: (_, { input }, context) =>
      makeOwnerLink(context, {
        orderId: input.orderId ? keyOf('WorkOrder', input.orderId, 'orderId') : null,
        quoteId: input.quoteId ? keyOf('Quote', input.quoteId, 'quoteId') : null,
        contactId: keyOf('Contact', input.contactId, 'contactId'),
        days: input.days,
      }),
  }),
  revokeOwnerLink: t.field({
    type: Link,
    errors: {},
    description: 'Takes a private link back. For the front desk and the manager.',
    args: { linkId: t.arg.id({ required: true, description: 'The link.' }) },
    resolve: (_, { linkId }, context) =>
      revokeOwnerLink(context, keyOf('OwnerLink', linkId, 'linkId')),
  }),
}));
