import type { PurchaseChannel, PurchaseState } from '../../graphql/generated/graphql.ts';

export const purchaseHref = (id: string): string => `/stores/orders/${encodeURIComponent(id)}`;

export const purchaseWords: Record<PurchaseState, string> = {
  draft: 'draft, not sent',
  sent: 'sent',
  received_in_part: 'received in part',
  received: 'received',
  cancelled: 'cancelled',
};

export const channelWords: Record<PurchaseChannel, string> = {
  email: 'by e-mail',
  telephone: 'by telephone',
  other: 'some other way',
};

/**
 * What is still to come of a line.
 *
 * @example stillToCome({ quantity: '2.5', received: '1' }) // → '1.5'
 * @example stillToCome({ quantity: '1', received: '1' }) // → '0'
 */
export function stillToCome({
  quantity,
  received,
}: {
  quantity: string;
  received: string;
}): string {
  // Quantities have at most three decimals: thousandths are whole, and exact as numbers.
  const left = Math.max(
    0,
    Math.round(Number(quantity) * 1000) - Math.round(Number(received) * 1000),
  );
  return String(left / 1000);
}
