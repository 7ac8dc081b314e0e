import type { Pricing } from '@fairlead/database';

/** How a task is sold. */
export interface Sold {
  pricing: Pricing;
  /** Net, minor units: the fixed price, or what is not to be exceeded; null by time and materials. */
  price: bigint | null;
}

/** A task, and how it is sold. */
export interface WantedTask extends Sold {
  taskId: string;
}

export const BY_TIME: Sold = { pricing: 'time_and_materials', price: null };

/** A task by time and materials. */
export const soldByTime = (taskId: string): WantedTask => ({ taskId, ...BY_TIME });
