/** How a promise is shown, for whoever's field answers with one. */
export { PromiseType, type ShownPromise } from './promise/promise-types.ts';
