import { sayBilledTime } from '../billed-time.ts';
import type { Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import type { OfferToPromise } from '../hangar/index.ts';
import { askedMechanic } from './asked-mechanic.ts';
import { type ComposedRevision, composeRevision } from './compose-revision.ts';
import { loadOffer } from './load-offer.ts';
import type { OfferInput } from './offer-input.ts';
import { promisedOf } from './promised-offer.ts';

/** What a draft would say, and what it would promise. */
export type ForecastQuote = ComposedRevision & { billedAs: string; toPromise: OfferToPromise };

/** What a forecast may suppose that a draft does not say. */
export interface WhatIf {
  /** Who does the work; null: whoever is free. */
  mechanicId: string | null;
  /** Civil day, midnight UTC, on which the work begins; null: as planned, else today. */
  beginsOn: Date | null;
}

/** How far ahead a beginning may be supposed, in days: nobody's weeks are known for longer. */
const MOST_AHEAD = 365;

/** What a draft of these lines would say. Nothing is kept. */
export async function forecastQuote(
  context: Context,
  input: OfferInput,
  { mechanicId, beginsOn }: WhatIf,
): Promise<ForecastQuote> {
  const mechanics = await askedMechanic(context.read, mechanicId);
  const offer = await loadOffer(context, input, mechanics);
  const ahead = beginsOn === null ? 0 : (+beginsOn - +offer.today) / 86_400_000;
  if (beginsOn !== null && !(ahead >= 0 && ahead <= MOST_AHEAD))
    throw new Refused(
      'BAD_INPUT',
      `Work was to begin on ${sayDay(beginsOn)}: needed is a day from ${sayDay(offer.today)} to ${MOST_AHEAD} days on.`,
      'beginsOn',
    );
  return {
    ...composeRevision(offer.offered, offer.prices, offer.billing),
    billedAs: sayBilledTime(offer.billing),
    toPromise: { ...promisedOf(offer), beginsOn },
  };
}
