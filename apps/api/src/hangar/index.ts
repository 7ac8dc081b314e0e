/** Keeps an aircraft where it stands: asked for when a look at it is appointed. */
export { keepStandUntil } from './keep-stand.ts';
/** What others need of the hangar: when an aircraft is ready, and that it is kept. */
export { keepOrderPromise, keepPromise } from './promise/keep-promise.ts';
export type { MadePromise } from './promise/make-promise.ts';
export { type OfferToPromise, promiseForOffer } from './promise/promise-for-offer.ts';
export { promiseForOrder } from './promise/promise-for-order.ts';
