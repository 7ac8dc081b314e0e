/** What an order leaves the shop, as the manager sees it and nobody else. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { issueTo, makeSold, type SoldVisit } from '../books/billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function margin(shop: TestShop, { order }: SoldVisit, role: 'manager' | 'front_desk') {
  const { data } = await shop.as<{ node: { margin: Record<string, string> | null } }>(
    role,
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { margin { worth labour parts charges left } } } }',
    { id: order },
  );
  return data!.node.margin;
}
const hourCosts = (shop: TestShop, rate: string) =>
  shop.inside((tx) =>
    tx.labourRate.create({
      data: { shopId: shop.shopId, kind: 'cost', rate, validFrom: new Date('2020-01-01') },
    }),
  );
const sold = (shop: TestShop, ceiling: bigint) =>
  makeSold(shop, {
    lines: [
      { title: 'Starter replaced', likelyMinor: 19_000n },
      {
        ...{ title: 'Housing inspected elsewhere', pricing: 'fixed', charge: 'outside_work' },
        ...{ likelyMinor: 16_100n, unitPrice: '161', costMinor: 14_000n, percent: '15' },
      },
    ],
    ceiling,
    items: [{ line: 0, seconds: 3600 }],
  });

it('is what was agreed and worked less hours, parts and others at what they cost', async () => {
  const shop = await makeShop(api);
  const visit = await sold(shop, 90_000n);
  expect(await margin(shop, visit, 'manager')).toBeNull();
  await hourCosts(shop, '38.50');
  await issueTo(shop, visit.itemIds[0] ?? '', {});
  // Sold: 1.0 h × 95.00, 161.00, 2 × 12.50. Cost: 1 h × 38.50, 140.00, 2 × 5.00.
  expect(await margin(shop, visit, 'manager')).toEqual({
    ...{ worth: '28100', labour: '3850', parts: '1000', charges: '14000' },
    left: '9250',
  });
  expect(await margin(shop, visit, 'front_desk')).toBeNull();
});

it('counts nothing past what the owner agreed to, and may be a loss', async () => {
  const shop = await makeShop(api);
  await hourCosts(shop, '38.50');
  const visit = await sold(shop, 10_000n);
  expect(await margin(shop, visit, 'manager')).toMatchObject({ worth: '10000', left: '-7850' });
});

it('the cost of an hour is never quoted', async () => {
  const shop = await makeShop(api);
  await hourCosts(shop, '38.50');
  const { data } = await shop.as<{ node: { costSoFar: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar } } }',
    { id: (await sold(shop, 90_000n)).order },
  );
  expect(data?.node.costSoFar).toBe('25600');
});
