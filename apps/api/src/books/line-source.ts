import type { Prisma } from '@fairlead/database';
import type { PriceList, Tax } from '../quoting/queries.ts';
import type { WorkToBill } from './work-to-bill.ts';

export type Item = WorkToBill['items'][number];
export type QuoteLine = WorkToBill['quotes'][number]['revisions'][number]['lines'][number];

/** What the lines of an invoice need to be kept with, by the id of the agreed line or of the part issued. */
export interface LineSource {
  category: Prisma.InvoiceLineUncheckedCreateInput['category'];
  quoteLineId: string | null;
  itemId: string | null;
  lotId: string | null;
  /** Whether it stands for an old part that has not come. */
  core: boolean;
  exemptionId: string | null;
  taxReason: string;
}

export type Sources = Map<string, LineSource>;

export const notTaxed = ({ exemptionId, reason }: Tax) => ({ exemptionId, taxReason: reason });

/**
 * The tax on what was quoted: as it was quoted; but an exemption counts only where it holds on the day of the bill, and
 * what one had freed of tax is taxed as today where it holds no more.
 */
export function taxOfQuoted(line: QuoteLine, prices: PriceList): Tax {
  const exempt = prices.exemptOf(line.category);
  if (exempt || line.exemptionId !== null) return exempt ?? prices.taxOf(line.category);
  return {
    code: line.taxCode as Tax['code'],
    rate: line.taxRate.toFixed(),
    exemptionId: null,
    reason: '',
  };
}
