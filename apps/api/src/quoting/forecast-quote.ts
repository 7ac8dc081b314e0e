import type { Context } from '../context.ts';
import { type ComposedRevision, composeRevision } from './compose-revision.ts';
import { loadOffer, type OfferInput } from './load-offer.ts';

/** What a draft of these lines would say. Nothing is kept. */
export async function forecastQuote(
  context: Context,
  input: OfferInput,
): Promise<ComposedRevision> {
  const { offered, prices } = await loadOffer(context, input);
  return composeRevision(offered, prices);
}
