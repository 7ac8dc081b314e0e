import type { Tx } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound } from '../errors.ts';

/** A link as the desk sees it: everything but its secret, which nobody has. */
export interface ShownLink {
  id: string;
  contactName: string;
  createdAt: Date;
  expiresAt: Date;
  revokedAt: Date | null;
}

const facts = {
  id: true,
  contactId: true,
  createdAt: true,
  expiresAt: true,
  revokedAt: true,
} as const;

/** The links that reach an order or a quote, newest first. */
export async function ownerLinks(
  context: Context,
  { orderId, quoteId }: { orderId: string | null; quoteId: string | null },
): Promise<ShownLink[]> {
  await allow(context, 'front_desk', 'manager');
  const { read } = context;
  const quote = quoteId
    ? await read.quote.findUnique({ where: { id: quoteId }, select: { orderId: true } })
    : null;
  const order = orderId ?? quote?.orderId ?? null;
  const quotes = order
    ? await read.quote.findMany({
        where: { orderId: order, findingId: null },
        select: { id: true },
      })
    : [];
  const links = await read.ownerLink.findMany({
    where: {
      OR: [
        ...(order ? [{ orderId: order }] : []),
        { quoteId: { in: [...quotes.map(({ id }) => id), ...(quoteId ? [quoteId] : [])] } },
      ],
    },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    select: facts,
  });
  return named(read, links);
}

/** Takes a link back; from then on it opens nothing. A second time changes nothing. */
export async function revokeOwnerLink(context: Context, linkId: string): Promise<ShownLink> {
  await allow(context, 'front_desk', 'manager');
  const now = context.now();
  return context.write(async (tx) => {
    await tx.ownerLink.updateMany({
      where: { id: linkId, revokedAt: null },
      data: { revokedAt: now },
    });
    const link = await tx.ownerLink.findUnique({ where: { id: linkId }, select: facts });
    if (!link) throw notFound('link');
    const [shown] = await named(tx, [link]);
    if (!shown) throw notFound('link');
    return shown;
  });
}

async function named(
  tx: Tx,
  links: readonly (Omit<ShownLink, 'contactName'> & { contactId: string })[],
): Promise<ShownLink[]> {
  const contacts = await tx.contact.findMany({
    where: { id: { in: links.map(({ contactId }) => contactId) } },
    select: { id: true, name: true },
  });
  const names = new Map(contacts.map(({ id, name }) => [id, name]));
  return links.map(({ contactId, ...link }) => ({
    ...link,
    contactName: names.get(contactId) ?? '',
  }));
}
