import type { Prisma, TaxCategory } from '@fairlead/database';
import type { PartPriced } from '../part-price.ts';
import type { WantedCharge } from './charges.ts';
import type { EstimatedTask } from './estimate-tasks.ts';
import type { LikelyWork } from './likely-findings.ts';
import type { Sold } from './sold.ts';

/** What is offered, in the order in which it is listed. */
export interface Offered {
  /** Sold at one price for all its tasks; null where there is none. */
  flat: { title: string; price: bigint } | null;
  /** Tasks under the flat price. Empty where there is none. */
  flatTasks: readonly EstimatedTask[];
  /** Other tasks, each with how it is sold. */
  tasks: readonly (EstimatedTask & { sold: Sold })[];
  parts: readonly OfferedPart[];
  charges: readonly WantedCharge[];
  /** What may be found: foretold, not offered. */
  likely: readonly LikelyWork[];
}

export interface OfferedPart {
  id: string;
  title: string;
  category: TaxCategory;
  priced: PartPriced;
  quantity: string;
  /** For one unit until the old one comes back, minor units; null: none is asked for. */
  coreCharge: bigint | null;
}

export type LineData = Omit<Prisma.QuoteLineUncheckedCreateInput, 'id' | 'shopId' | 'revisionId'>;
