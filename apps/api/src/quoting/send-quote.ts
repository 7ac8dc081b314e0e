import type { Channel } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { shopKey } from '../shop-key.ts';
import { shopToday } from '../today.ts';
import { mailQuote } from './mail-quote.ts';
import { holdQuote, refuseStale, refuseUnjudged } from './newest-revision.ts';

export interface SendQuoteInput {
  quoteId: string;
  revision: number;
  channel: Channel;
}

/** Records that the newest revision went to the owner; by e-mail, it mails it. Once: a second time answers the same. */
export async function sendQuote(
  context: Context,
  { quoteId, revision, channel }: SendQuoteInput,
): Promise<string> {
  const { personId, shopId } = await allow(context, 'front_desk', 'manager');
  const key = channel === 'email' ? await shopKey(context.uploadsDir, shopId) : null;
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    const quote = await holdQuote(tx, quoteId);

    // decide
    refuseStale(quote, revision, 'revision');
    if (quote.newest.sendings.length > 0) return quote.id;
    refuseUnjudged(quote);
    if (quote.newest.expiresOn < today)
      throw new Refused(
        'AGAINST_RULE',
        `Revision ${revision} of quote ${quote.number} held until ${iso(quote.newest.expiresOn)}, and today is ${iso(today)}: revise it first.`,
      );

    // save
    const now = context.now();
    await tx.quoteSending.create({
      data: { revisionId: quote.newest.id, sentAt: now, sentById: personId, channel },
    });
    if (key) await mailQuote(tx, quote, { personId, key, now });
    return quote.id;
  });
}

const iso = (day: Date) => day.toISOString().slice(0, 10);
