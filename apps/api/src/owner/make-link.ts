import { civilDay } from '../civil-day.ts';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { contactStanding } from '../quoting/index.ts';
import { hashOf, makeSecret } from './secret.ts';

export interface MakeOwnerLinkInput {
  orderId: string | null;
  quoteId: string | null;
  contactId: string;
  /** For how many days it opens. */
  days: number;
}

const MOST_DAYS = 365;

export interface MadeLink {
  url: string;
  expiresAt: Date;
}

/** Makes a private link to an order, or to the quote of a visit. Its address is told here and never again. */
export async function makeOwnerLink(
  context: Context,
  input: MakeOwnerLinkInput,
): Promise<MadeLink> {
  await allow(context, 'front_desk', 'manager');
  const { contactId, days } = input;
  if ((input.orderId === null) === (input.quoteId === null))
    throw new Refused('BAD_INPUT', 'A link is to an order or to a quote: name one of them.');
  if (!Number.isInteger(days) || days < 1 || days > MOST_DAYS)
    throw new Refused(
      'BAD_INPUT',
      `A link for ${days} days was refused: needed are 1 to ${MOST_DAYS} whole days.`,
      'days',
    );

  return context.write(async (tx) => {
    // load
    const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
    const quote = input.quoteId
      ? await tx.quote.findUnique({
          where: { id: input.quoteId },
          select: {
            number: true,
            aircraftId: true,
            orderId: true,
            revisions: { where: { sendings: { some: {} } }, take: 1, select: { id: true } },
          },
        })
      : null;
    if (input.quoteId && !quote) throw notFound('quote');
    const orderId = input.orderId ?? quote?.orderId ?? null;
    const order = orderId
      ? await tx.workOrder.findUnique({ where: { id: orderId }, select: { aircraftId: true } })
      : null;
    if (orderId && !order) throw notFound('order');

    // decide
    const now = context.now();
    await contactStanding(tx, {
      aircraftId: order?.aircraftId ?? quote?.aircraftId ?? '',
      contactId,
      day: civilDay(now, timeZone),
    });
    if (quote && quote.revisions.length === 0)
      throw new Refused(
        'AGAINST_RULE',
        `Quote ${quote.number} was not sent: its page would show nothing. Send it first.`,
        'quoteId',
      );

    // save
    const secret = makeSecret();
    const expiresAt = new Date(now.getTime() + days * 86_400_000);
    await tx.ownerLink.create({
      data: {
        // A quote that is on an order is reached through it, with all that belongs to it.
        ...(orderId ? { orderId } : { quoteId: input.quoteId }),
        contactId,
        secretHash: hashOf(secret),
        createdAt: now,
        expiresAt,
      },
      select: { id: true },
    });
    return { url: `/owner/${secret}`, expiresAt };
  });
}
