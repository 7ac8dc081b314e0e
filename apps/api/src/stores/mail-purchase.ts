import type { Tx } from '@fairlead/database';
import { sayDay } from '../given.ts';
import { globalId } from '../ids.ts';
import { queueMail } from '../post/index.ts';

/** What of a purchase order its mail says. */
export interface PurchaseToMail {
  id: string;
  number: number;
  supplier: string;
  supplierEmail: string;
  expectedOn: Date | null;
  lines: readonly unknown[];
}

/**
 * Mails a purchase order that is being sent to its supplier, with its PDF. In the transaction that records the sending, so that
 * neither is without the other.
 *
 * @returns the mail's id
 */
export async function mailPurchase(
  tx: Tx,
  { id, number, supplier, supplierEmail, expectedOn, lines }: PurchaseToMail,
  { personId, now }: { personId: string; now: Date },
): Promise<string> {
  const shop = await tx.shop.findFirstOrThrow({ select: { name: true, place: true } });
  return queueMail(tx, {
    to: { address: supplierEmail, name: supplier },
    subject: `Purchase order ${number} of ${shop.name}`,
    paragraphs: [
      `${supplier}, this is purchase order ${number} of ${shop.name}, of ${lines.length} ${lines.length === 1 ? 'line' : 'lines'}. It goes with this mail as a PDF.`,
      expectedOn
        ? `We expect it on ${sayDay(expectedOn)}. Please answer where that will not be.`
        : 'Please answer with the day on which we may expect it.',
      'Please send each part with its release certificate, and name the order’s number on the delivery note.',
      `${shop.name}\n${shop.place}`,
    ],
    papers: [{ paper: 'purchase-order', subject: globalId('PurchaseOrder', id) }],
    about: { words: `Purchase order ${number}, ${supplier}` },
    queuedById: personId,
    now,
  });
}
