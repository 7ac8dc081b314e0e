import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { promiseForOffer } from '../hangar/index.ts';
import { composeRevision } from './compose-revision.ts';
import { loadOffer } from './load-offer.ts';
import { holdQuote, refuseStale } from './newest-revision.ts';
import type { OfferInput } from './offer-input.ts';
import { expiryOf, textUpTo } from './offer-terms.ts';
import { promisedOf } from './promised-offer.ts';
import { saveRevision } from './save-revision.ts';
import { sayDecision } from './say-decision.ts';

export interface ReviseQuoteInput extends Pick<OfferInput, 'tasks' | 'parts' | 'charges'> {
  quoteId: string;
  /** The revision that was looked at when this was decided. */
  fromRevision: number;
  expiresOn: Date | null;
  terms: string | null;
}

/** Adds the next numbered revision, at today's prices. The earlier ones stay as they were. */
export async function reviseQuote(context: Context, input: ReviseQuoteInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');

  // load
  const quote = await context.read.quote.findUnique({ where: { id: input.quoteId } });
  if (!quote) throw notFound('quote');
  if (quote.more)
    throw new Refused(
      'AGAINST_RULE',
      `Quote ${quote.number} asks for more on its order: ask again from the order, and it has its next revision.`,
    );
  const { aircraftId, contactId, packageId, findingId } = quote;
  const offer = await loadOffer(context, {
    ...input,
    ...{ aircraftId, contactId, packageId, findingId },
  });
  const { offered, model, prices, today } = offer;

  // decide
  const composed = composeRevision(offered, prices, offer.billing);
  const promise = await promiseForOffer(context.read, promisedOf(offer), context.now());
  const expiresOn = expiryOf(input.expiresOn, today);

  // save
  return context.write(async (tx) => {
    const held = await holdQuote(tx, quote.id);
    refuseStale(held, input.fromRevision, 'fromRevision');
    const yes = held.newest.decisions.find(({ choice }) => choice === 'go_ahead');
    if (yes)
      throw new Refused(
        'AGAINST_RULE',
        `Quote ${held.number} is agreed: ${sayDecision(yes)}. What comes on top is a quote of its own.`,
      );
    await saveRevision(tx, {
      quoteId: quote.id,
      revision: held.newest.revision + 1,
      draftedById: personId,
      draftedAt: context.now(),
      expiresOn,
      terms: input.terms === null ? held.newest.terms : textUpTo(input.terms, 4000, 'terms'),
      composed,
      model,
      promise,
    });
    return quote.id;
  });
}
