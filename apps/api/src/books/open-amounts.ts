import type { Tx } from '@fairlead/database';

/** An issued invoice on which something is owed, or is to be paid back. */
export interface OpenInvoice {
  id: string;
  contactId: string;
  currency: string;
  dueOn: Date | null;
  owed: bigint;
}

/** What is left of somebody's deposits. */
export interface HeldDeposits {
  contactId: string;
  currency: string;
  held: bigint;
}

/** Every invoice that is not settled, by the rule of `owedOf`, in one statement; of one payer where one is named. */
export function openInvoices(tx: Tx, contactId: string | null): Promise<OpenInvoice[]> {
  return tx.$queryRaw<OpenInvoice[]>`
    SELECT * FROM (SELECT v.id, v.contact_id AS "contactId", v.currency, v.due_on AS "dueOn",
        (v.gross_minor
          + coalesce((SELECT sum(n.gross_minor) FROM invoice n WHERE n.shop_id = v.shop_id AND n.order_id = v.order_id
              AND n.credits_id = v.id AND n.issued_at IS NOT NULL), 0)
          - coalesce((SELECT sum(p.amount_minor) FROM payment p WHERE p.shop_id = v.shop_id AND p.invoice_id = v.id), 0))::bigint AS owed
      FROM invoice v
      WHERE v.shop_id = current_shop() AND v.issued_at IS NOT NULL AND v.credits_id IS NULL
        AND (${contactId}::uuid IS NULL OR v.contact_id = ${contactId}::uuid)) AS each
    WHERE owed <> 0 ORDER BY "dueOn", id`;
}

/** What is left of deposits, by payer and currency; of one payer where one is named. */
export function heldDeposits(tx: Tx, contactId: string | null): Promise<HeldDeposits[]> {
  return tx.$queryRaw<HeldDeposits[]>`
    SELECT * FROM (SELECT d.contact_id AS "contactId", d.currency, (sum(d.amount_minor)
        - coalesce(sum((SELECT sum(p.amount_minor) FROM payment p WHERE p.shop_id = d.shop_id AND p.deposit_id = d.id)), 0)
        - coalesce(sum((SELECT sum(r.amount_minor) FROM deposit_refund r WHERE r.shop_id = d.shop_id AND r.deposit_id = d.id)), 0))::bigint AS held
      FROM deposit d
      WHERE d.shop_id = current_shop() AND (${contactId}::uuid IS NULL OR d.contact_id = ${contactId}::uuid)
      GROUP BY d.contact_id, d.currency) AS each
    WHERE held <> 0`;
}
