/** Hazards of looking closer, shown before it is done. They stand whatever the tables say. */
export const hazards = {
  fuel: 'Fuel vapour: no flame, no spark, no telephone at the work; air the place, bond the aircraft, have an extinguisher within reach.',
  electric:
    'Power on among fuel: only when the vapour is gone, and one person stays at the switch.',
  ignition:
    'Ignition off and battery disconnected before a hand goes near the propeller or rotor. Treat every magneto as live.',
  running:
    'Engine running: everybody clear of the propeller or rotors, a qualified person at the controls, nobody under the cowling.',
  hot: 'Hot parts and hot oil burn long after the engine stops.',
  pressure: 'Stored pressure: release it before a fitting is loosened.',
  turning: 'Turning parts by hand: ignition off, and fingers out of belts, sheaves and the fan.',
} as const;

export type Hazard = keyof typeof hazards;
