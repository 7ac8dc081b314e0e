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
export { type Conflict, overlaps, type Stay, timeWriter } from './stays.ts';
