import { randomBytes } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { offeredFinding, pageAt } from '../owner/owner-shop.ts';
import { openStream } from './stream.ts';

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const QUIET_MS = 800;
const stateAt = async (link: string) =>
  ((await pageAt(api, link)) as unknown as { state: string }).state;
const newsOf = (link: string, state: string) =>
  openStream(`${api.origin}${link}/news?state=${state}`);
const itemOf = (orderId: string) =>
  shop.inside((tx) => tx.workItem.findFirstOrThrow({ where: { orderId }, select: { id: true } }));
const finish = async (orderId: string) => {
  const { id } = await itemOf(orderId);
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: {
        itemId: id,
        kind: 'done',
        workDone: 'Replaced the gasket.',
        byId: shop.people.mechanic.id,
      },
    }),
  );
};

it('tells the page of a link that its order moved on, and nothing of other orders', async () => {
  const [mine, theirs] = [await offeredFinding(shop), await offeredFinding(shop)];
  const state = await stateAt(mine.link);
  expect(await stateAt(mine.link)).toBe(state);
  const news = await newsOf(mine.link, state);
  expect(news.status).toBe(200);
  await finish(theirs.order.id);
  expect(await news.next(QUIET_MS)).toBeNull();
  await finish(mine.order.id);
  expect(await news.next()).toEqual({ event: 'changed', data: '{}' });
  expect(await news.ends()).toBe(true);
  expect(await stateAt(mine.link)).not.toBe(state);
});

it('tells at once what changed before it was asked', async () => {
  const { link } = await offeredFinding(shop);
  const news = await newsOf(link, 'of-yesterday');
  expect(await news.next()).toEqual({ event: 'changed', data: '{}' });
});

it('opens by the link alone, and a link taken back is news', async () => {
  const { link, order } = await offeredFinding(shop);
  const guessed = await newsOf(`/owner/${randomBytes(32).toString('base64url')}`, '');
  expect([guessed.status, guessed.refusal]).toEqual([404, expect.stringContaining('NOT_FOUND')]);
  const news = await newsOf(link, await stateAt(link));
  await shop.inside((tx) =>
    tx.ownerLink.updateMany({ where: { orderId: order.id }, data: { revokedAt: new Date() } }),
  );
  expect(await news.next()).toEqual({ event: 'changed', data: '{}' });
  expect((await newsOf(link, '')).status).toBe(404);
});
