import type { WantedCharge } from './charges.ts';
import type { WantedTask } from './sold.ts';

/** What somebody wants quoted: keys, not yet known to exist. */
export interface OfferInput {
  aircraftId: string;
  /** Who would pay: their exemptions from tax count. Null or left out: nobody is named yet. */
  contactId?: string | null;
  packageId: string | null;
  findingId: string | null;
  tasks: readonly WantedTask[];
  parts: readonly { partId: string; quantity: string }[];
  charges: readonly WantedCharge[];
}
