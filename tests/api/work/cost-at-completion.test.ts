/** What an order comes to at its end, from what was clocked, what is left, and what was agreed. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import type { Visit } from '../../support/visit.ts';
import { issueTo, makeSold } from '../books/billing.ts';
import { makeTasks } from '../quoting/quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

type Spread = Record<'p10' | 'p50' | 'p80' | 'p90', string>;
async function ends(shop: TestShop, visit: Visit) {
  const { data } = await shop.as<{
    node: { costSoFar: string; costAtCompletion: Spread | null };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar costAtCompletion { p10 p50 p80 p90 } } } }',
    { id: visit.order },
  );
  const { costSoFar, costAtCompletion: at } = data!.node;
  const spread = at && [at.p10, at.p50, at.p80, at.p90].map(Number);
  return { soFar: Number(costSoFar), spread };
}

/** One task by time, of which so much is clocked; not done. */
async function begun(shop: TestShop, seconds: number, over: Record<string, unknown> = {}) {
  const [task] = await makeTasks(shop, 1);
  const visit = await makeSold(shop, {
    lines: [{ title: 'Line re-routed', likelyMinor: 19_000n, ...over }],
    ceiling: 90_000n,
    items: [{ line: 0, seconds, workDone: null, taskId: task?.id ?? null }],
  });
  return visit;
}

it('before anything is clocked it is the estimate; clocked hours narrow it, and it is never less than them', async () => {
  const shop = await makeShop(api);
  const fresh = await ends(shop, await begun(shop, 0));
  const [low = 0, likely = 0, p80 = 0, high = 0] = fresh.spread ?? [];
  expect(fresh.soFar).toBe(0);
  expect(low).toBeLessThan(likely);
  expect(likely).toBeLessThan(p80);
  expect(p80).toBeLessThan(high);

  // As long again as nine in ten take: what is left is what the tail beyond holds.
  const hours = high / 9500;
  const other = await makeShop(api);
  const late = await ends(other, await begun(other, Math.round(hours * 3600)));
  expect(late.soFar).toBeGreaterThanOrEqual(high - 1000);
  const [lateLow = 0, , , lateHigh = 0] = late.spread ?? [];
  expect(lateLow).toBeGreaterThanOrEqual(late.soFar);
  expect(lateLow).toBeGreaterThan(high - 1000);
  expect(lateHigh).toBeGreaterThan(lateLow);
});

it('a price not to be exceeded ends it, a fixed price and a charge are whole before they begin, parts to come are in it', async () => {
  const shop = await makeShop(api);
  const [first, second] = await makeTasks(shop, 2);
  const { id: partId } = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'H-1', title: 'Hose', unitPrice: '50' },
    }),
  );
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Capped', pricing: 'not_to_exceed', likelyMinor: 100n, limitMinor: 100n },
      { title: 'Fixed', pricing: 'fixed', likelyMinor: 45_000n, unitPrice: '450' },
      { title: 'Freight', pricing: 'fixed', charge: 'freight', likelyMinor: 6_000n },
      {
        ...{ title: 'Hose', category: 'parts', partId, quantity: '3', unitPrice: '40' },
        likelyMinor: 12_000n,
      },
    ],
    ceiling: 90_000n,
    items: [
      { line: 0, workDone: null, taskId: first?.id ?? null },
      { line: 1, workDone: null, taskId: second?.id ?? null },
    ],
  });
  // 1.00 + 450.00 + 60.00 + 3 × 40.00, at every quantile.
  expect(await ends(shop, visit)).toEqual({ soFar: 0, spread: Array(4).fill(63_100) });
  // Issued, a part is counted once: 2 at the quoted price, 1 still to come.
  await issueTo(shop, visit.itemIds[0] ?? '', { partId, quantity: '2' });
  expect(await ends(shop, visit)).toEqual({ soFar: 8_000, spread: Array(4).fill(63_100) });
});

it('of what is done, or put off before it began, nothing is left', async () => {
  const shop = await makeShop(api);
  const done = await makeSold(shop, {
    lines: [{ title: 'Done', likelyMinor: 19_000n }],
    ceiling: 90_000n,
    items: [{ line: 0, seconds: 3600 }],
  });
  expect(await ends(shop, done)).toEqual({ soFar: 9_500, spread: null });
});
