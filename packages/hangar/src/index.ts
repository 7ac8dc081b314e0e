export { enters, type HangarRoom } from './entry.ts';
export { type Clearance, type Fit, fits, type ParkedAircraft, type Stand } from './fits.ts';
export {
  type AircraftKind,
  type AircraftShape,
  aircraftKinds,
  type Footprint,
  footprint,
  type Point,
} from './footprint.ts';
export { formatMetres, type Metres, metres } from './metres.ts';
export { type Occupancy, occupancy } from './occupancy.ts';
export { type CivilDay, dayAfter, daysBetween, sayCivilDay } from './promise/civil-day.ts';
export {
  freeMinutes,
  handMinutes,
  type OtherWork,
  type Piece,
  type ShopDay,
} from './promise/hand-minutes.ts';
export { HANDS_AT_ONCE, promiseOf, type ReturnPromise } from './promise/promise.ts';
export type { PromiseAsked, PromisedWork } from './promise/promise-asked.ts';
export type { PromiseDays, PromiseParts } from './promise/promise-parts.ts';
export { type Conflict, overlaps, type Stay, timeWriter } from './stays.ts';
