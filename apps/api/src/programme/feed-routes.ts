import { randomUUID } from 'node:crypto';
import { type Client, inShop } from '@fairlead/database';
import type { Express } from 'express';
import { civilDay } from '../civil-day.ts';
import { notFound } from '../errors.ts';
import { calendarOf } from './calendar.ts';
import { dueListsOf } from './due-list.ts';
import { feedHash } from './feeds.ts';

/** `GET /due/:secret.ics`: what falls due, for a calendar program. The address is the key; it reads and decides nothing. */
export function mountDueFeeds(
  app: Express,
  { client, now = () => new Date() }: { client: Client; now?: () => Date },
): void {
  app.get('/due/:secret.ics', async (request, response) => {
    const hash = feedHash(request.params.secret);
    const [feed] = await client.$transaction(async (tx) => {
      await tx.$queryRaw`SELECT set_config('role', 'fairlead_link', true), set_config('transaction_read_only', 'on', true)`;
      return tx.$queryRaw<{ shopId: string; aircraftId: string | null }[]>`
        SELECT shop_id AS "shopId", aircraft_id AS "aircraftId" FROM resolve_due_feed(${hash})`;
    });
    if (!feed) throw notFound('calendar');
    const scope = { shopId: feed.shopId, personId: null, requestId: randomUUID() };
    const calendar = await inShop(client, scope, async (tx) => {
      const shop = await tx.shop.findFirstOrThrow({ select: { name: true, timeZone: true } });
      const lists = await dueListsOf(tx, feed.aircraftId, civilDay(now(), shop.timeZone));
      const [only] = lists;
      const what =
        feed.aircraftId === null || !only ? shop.name : `${only.registration}, ${shop.name}`;
      return calendarOf(`Due: ${what}`, lists, now());
    });
    response
      .status(200)
      .set({
        'content-type': 'text/calendar; charset=utf-8',
        'cache-control': 'no-store',
        'referrer-policy': 'no-referrer',
        'x-content-type-options': 'nosniff',
        'x-robots-tag': 'noindex, nofollow',
      })
      .end(calendar);
  });
}
