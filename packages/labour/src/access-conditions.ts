export type Sight = 'direct' | 'mirror' | 'feel';
export type Posture = 'upright' | 'bent' | 'lying';
export type Reach = 'forearm' | 'arm';

/** What makes a place hard to work in. A condition left out is not recorded. */
export type AccessConditions = {
  /** Clearance for hand and tool, millimetres, 0 or more. */
  readonly clearanceMm?: number | undefined;
  readonly sight?: Sight | undefined;
  readonly posture?: Posture | undefined;
  readonly reach?: Reach | undefined;
  /** Free swing of the tool, degrees, 0 to 360. */
  readonly swingDeg?: number | undefined;
  /** Held against spring, cam or weight while fastening. */
  readonly held?: boolean | undefined;
  /** Fasteners locked by wire, cotter or tab: a whole number, 0 or more. */
  readonly lockedFasteners?: number | undefined;
};

/** The place where nothing is in the way: every condition at its best. */
export const FREE_BENCH: AccessConditions = Object.freeze({
  clearanceMm: 300,
  sight: 'direct',
  posture: 'upright',
  reach: 'forearm',
  swingDeg: 60,
  held: false,
  lockedFasteners: 0,
});

export type AccessCondition = keyof AccessConditions;
