import type { PricedItem } from '@fairlead/labour';

/** Work as a simulation takes it: how long it takes, and what an hour of it costs. */
export interface WorkToDraw {
  items: readonly PricedItem[];
  /** Hours that are billed for so many worked. */
  billed: (hours: number) => number;
  /** Price of an hour of a kind of work in minor units; of no kind: the general one. */
  rateOf: (kind: string | null) => number;
}
