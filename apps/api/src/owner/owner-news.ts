import { createHash } from 'node:crypto';
import { type Client, inLink } from '@fairlead/database';
import type { Request, Response } from 'express';
import type { ShopNews } from '../live/index.ts';
import { readPage } from './read-page.ts';
import { hashOf } from './secret.ts';

const ALIVE_EVERY_MS = 15_000;

/** A short name of what a page shows: another as soon as anything on it is another. */
export const stateOf = (page: unknown): string =>
  createHash('sha256').update(JSON.stringify(page)).digest('base64url').slice(0, 16);

/**
 * Tells a page that it is no longer what its link shows, once, as a server-sent event. What is looked at is what the link
 * reaches, read as the link reads it, so nothing is told of the rest of the shop. A link that ends is news too.
 *
 * @param shown the state that the page was drawn from
 * @returns false where the link opens nothing
 */
export async function streamNews(
  { client, news, now }: { client: Client; news: ShopNews; now: () => Date },
  secret: string,
  shown: string,
  exchange: { request: Request; response: Response },
): Promise<boolean> {
  const look = () =>
    inLink(client, hashOf(secret), async (tx, link) => ({
      shopId: link.shopId,
      state: stateOf(await readPage(tx, link.contactId, now())),
    }));
  const opened = await look();
  if (!opened) return false;
  const { request, response } = exchange;
  const stream = await news.of(opened.shopId);
  const leave = () => void stream.return?.();
  request.once('close', leave);
  response.set({
    'content-type': 'text/event-stream; charset=utf-8',
    'cache-control': 'no-store, no-transform',
    'x-accel-buffering': 'no',
  });
  response.write(':\n\n');
  const alive = setInterval(() => response.write(':\n\n'), ALIVE_EVERY_MS);
  try {
    // What changed between the page and this stream is told at once.
    let state = (await look())?.state;
    while (state === shown && !(await stream.next()).done) state = (await look())?.state;
    if (state !== shown) response.write('event: changed\ndata: {}\n\n');
  } finally {
    clearInterval(alive);
    leave();
    response.end();
  }
  return true;
}
