import type { Context } from '../context.ts';
import type { OfferToPromise } from '../hangar/index.ts';
import { type ComposedRevision, composeRevision } from './compose-revision.ts';
import { loadOffer } from './load-offer.ts';
import type { OfferInput } from './offer-input.ts';
import { promisedOf } from './promised-offer.ts';

/** What a draft would say, and what it would promise. */
export type ForecastQuote = ComposedRevision & { toPromise: OfferToPromise };

/** What a draft of these lines would say. Nothing is kept. */
export async function forecastQuote(context: Context, input: OfferInput): Promise<ForecastQuote> {
  const offer = await loadOffer(context, input);
  return { ...composeRevision(offer.offered, offer.prices), toPromise: promisedOf(offer) };
}
