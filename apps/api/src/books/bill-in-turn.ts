import { inTurn, movementsInTurn, stretchesInTurn, type Turn } from '../work/queries.ts';
import type { WorkToBill } from './work-to-bill.ts';

/** What of an order is of one of its owners: what they agreed to, what was clocked, issued, done and charged in their time. */
export function workInTurn(order: WorkToBill, turn: Turn): WorkToBill {
  const here = inTurn(turn);
  return {
    ...order,
    // What was agreed is chosen here already.
    sales: [],
    charges: order.charges.filter(here),
    payers: order.payers.filter(here),
    quotes: order.quotes.map((quote) => ({
      ...quote,
      revisions: quote.revisions.flatMap((revision) => {
        const decisions = revision.decisions.filter(({ decidedAt }) => here({ at: decidedAt }));
        return decisions.length > 0 ? [{ ...revision, decisions }] : [];
      }),
    })),
    items: order.items.map((item) => ({
      ...item,
      events: item.events.filter(here),
      movements: movementsInTurn(item.movements, turn),
      stretches: stretchesInTurn(item.stretches, turn),
    })),
  };
}
