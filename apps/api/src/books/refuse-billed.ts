import type { Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';

/** Invoices of an order that were issued and not taken back. */
export const standing = {
  creditsId: null,
  issuedAt: { not: null },
  creditNotes: { none: { issuedAt: { not: null }, inPart: false } },
} as const;

/** Who pays what is settled by the invoices: while they stand, nothing of it is changed. */
export async function refuseBilled(
  tx: Tx,
  orderId: string,
  orderNumber: number,
  /** Of a sale: what is of the seller; null: of the owner of now. */
  saleId: string | null = null,
): Promise<void> {
  const billed = await tx.invoice.findMany({
    where: { orderId, saleId, ...standing },
    orderBy: { number: 'asc' },
    select: { number: true },
  });
  if (billed.length > 0)
    throw new Refused(
      'CONFLICT',
      `Order ${orderNumber} is billed already, with invoice ${billed.map(({ number }) => number).join(' and ')}: credit that first.`,
    );
}
