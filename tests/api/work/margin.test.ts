/** What an order leaves the shop, as the manager sees it and nobody else. */
import { globalId } from '@fairlead/api/ids';
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

it('of an order whose aircraft was sold mid-work is that of the owner of now, and says since when', async () => {
  const shop = await makeShop(api);
  await hourCosts(shop, '38.50');
  const visit = await sold(shop, 90_000n);
  await issueTo(shop, visit.itemIds[0] ?? '', {});
  const buyer = await shop.inside((tx) =>
    tx.contact.create({ data: { shopId: shop.shopId, name: 'Test Buyer' } }),
  );
  const { data } = await shop.as<{ done: { __typename: string } }>(
    'front_desk',
    'mutation($input: SellAircraftInput!) { done: sellAircraft(input: $input) { __typename ... on Refusal { message } } }',
    {
      input: {
        aircraftId: globalId('Aircraft', shop.aircraftId),
        buyerId: globalId('Contact', buyer.id),
        soldOn: new Date().toISOString().slice(0, 10),
      },
    },
  );
  expect(data?.done).toEqual({ __typename: 'Aircraft' });
  const nothing = { worth: '0', labour: '0', parts: '0', charges: '0', left: '0' };
  expect(await margin(shop, visit, 'manager')).toEqual(nothing);
  // Half an hour for the new owner, who has agreed to nothing yet: what it cost is not covered.
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        ...{ personId: shop.people.mechanic.id, itemId: visit.itemIds[0] ?? '' },
        startedAt: new Date(Date.now() + 60_000),
        endedAt: new Date(Date.now() + 1_860_000),
      },
    }),
  );
  expect(await margin(shop, visit, 'manager')).toEqual({
    ...nothing,
    ...{ labour: '1925', left: '-1925' },
  });
  const { data: since } = await shop.as<{ node: { margin: { since: string | null } } }>(
    'manager',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { margin { since } } } }',
    { id: visit.order },
  );
  expect(since?.node.margin.since).toMatch(/^\d{4}-\d{2}-\d{2}T/);
});
