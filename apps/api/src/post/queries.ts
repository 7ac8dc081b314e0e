import type { Tx } from '@fairlead/database';

/** Mails that wait or failed: what somebody may have to do something about. */
export async function openMailIds(tx: Tx): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT m.id FROM mail m LEFT JOIN LATERAL (SELECT e.kind FROM mail_event e
      WHERE e.shop_id = m.shop_id AND e.mail_id = m.id ORDER BY e.seq DESC LIMIT 1) newest ON true
    WHERE m.shop_id = current_shop() AND (newest.kind IS NULL OR newest.kind NOT IN ('sent', 'kept', 'put_away'))`;
  return rows.map(({ id }) => id);
}

/** How many mails failed and were neither tried again nor put away. */
export async function failedMails(tx: Tx): Promise<number> {
  const [row] = await tx.$queryRaw<{ n: number }[]>`
    SELECT count(*)::int AS n FROM (SELECT DISTINCT ON (e.mail_id) e.kind FROM mail_event e
      WHERE e.shop_id = current_shop() ORDER BY e.mail_id, e.seq DESC) newest
    WHERE newest.kind IN ('refused', 'given_up')`;
  return row?.n ?? 0;
}
