import { minor } from '@fairlead/money';
import type { PriceList } from '../quoting/queries.ts';
import { hasBegun, ourCostOf } from '../work/queries.ts';
import type { LineData } from './compose-invoice.ts';
import type { WorkToBill } from './work-to-bill.ts';

/** Unit of a line that says what is not billed because it is the shop's own to pay. */
export const OUR_COST = 'at our cost';

/**
 * What the owner should see of work that is not billed: what was put right, and what was offered to them and is not
 * charged. A line each, of nothing. Shop time and training that nobody was offered are no business of theirs.
 */
export function linesAtOurCost(order: WorkToBill, prices: PriceList): LineData[] {
  const { code, rate } = prices.taxOf('labour');
  return order.items.flatMap((item) => {
    const kind = ourCostOf(item);
    if (kind === null || !hasBegun([item])) return [];
    if (kind !== 'rework' && item.quoteLineId === null) return [];
    return [
      {
        position: 0,
        title: `${item.title}: ${kind === 'rework' ? 'put right at our cost' : 'at our own cost'}`,
        category: 'labour' as const,
        quoteLineId: item.quoteLineId,
        itemId: item.id,
        lotId: null,
        quantity: '1',
        unit: OUR_COST,
        unitPrice: '0',
        netMinor: minor(0n),
        taxCode: code,
        taxRate: rate,
      },
    ];
  });
}
