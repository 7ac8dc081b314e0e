import type { AircraftKind } from '@fairlead/diagnosis';

/** Which causes an aircraft of this kind can have. */
export const flies = (kind: string): AircraftKind =>
  kind.startsWith('helicopter') ? 'helicopter' : 'airplane';
