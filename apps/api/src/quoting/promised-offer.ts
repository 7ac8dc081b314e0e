import type { OfferToPromise } from '../hangar/index.ts';
import type { Offer } from './load-offer.ts';

/** What of an offer decides when the aircraft is ready. */
export const promisedOf = ({ aircraft, orderId, offered, model }: Offer): OfferToPromise => ({
  aircraftId: aircraft.id,
  orderId,
  estimates: [...offered.flatTasks, ...offered.tasks].map(({ estimate }) => estimate),
  parts: offered.parts,
  model,
  beginsOn: null,
});
