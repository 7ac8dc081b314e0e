import { type Client, inShop } from '@fairlead/database';
import type pg from 'pg';
import { newId } from '../new-id.ts';
import { askToSend } from './queue-mail.ts';

/**
 * Asks again for mails that should have been tried and were not: their job died with its worker, and the queue keeps such a job
 * locked for hours. Asked too often does no harm: a mail that is being sent is held.
 *
 * @param pool connections in the role fairlead_jobs
 * @param graceSeconds so long a mail may be late before it is asked for again
 */
export async function askOverdueMails(
  client: Client,
  pool: pg.Pool,
  graceSeconds: number,
): Promise<number> {
  const { rows } = await pool.query<{ shop_id: string; mail_id: string }>(
    'select shop_id, mail_id from public.mails_overdue(make_interval(secs => $1))',
    [graceSeconds],
  );
  for (const { shop_id: shopId, mail_id: mailId } of rows)
    await inShop(client, { shopId, personId: null, requestId: newId() }, (tx) =>
      askToSend(tx, mailId, new Date()),
    );
  return rows.length;
}
