import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { makeVisit } from '../../support/visit.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function core(
  shop: TestShop,
  name: 'coreCameBack' | 'coreSentBack',
  input: Record<string, unknown>,
  role: Role = 'mechanic',
) {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { data } = await shop.as<{ done: { code?: string; message?: string; field?: string } }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Lot { id } ... on Refusal { code message field } } }`,
    { input },
  );
  return data?.done ?? {};
}

const owed = async (shop: TestShop) => {
  const { data } = await shop.as<{
    coresOwedByWork: { quantity: string; amount: string; item: { title: string } }[];
    coresOwedToSuppliers: { quantity: string; amount: string; atHand: string }[];
  }>(
    'front_desk',
    '{ coresOwedByWork { quantity amount item { title } lot { batch } } coresOwedToSuppliers { quantity amount atHand lot { supplier } } }',
  );
  return data;
};

it('an exchange part makes a core owed by the work until the old one comes, and by the shop until it is sent', async () => {
  const { shop, lot, itemId, visit } = await stocked(api, { quantity: '4', coreCharge: '25000' });
  expect(await owed(shop)).toEqual({
    coresOwedByWork: [],
    coresOwedToSuppliers: [
      { quantity: '4', amount: '100000', atHand: '0', lot: { supplier: 'Invented Supplies' } },
    ],
  });
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '3' });
  await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '1' });
  expect((await owed(shop))?.coresOwedByWork).toEqual([
    { quantity: '2', amount: '50000', item: { title: 'Item 1' }, lot: { batch: 'B-7' } },
  ]);
  const back = { lotId: lot.id, itemId, quantity: '1', words: 'Housing cracked' };
  expect(await core(shop, 'coreCameBack', { ...back, quantity: '3' })).toMatchObject({
    code: 'AGAINST_RULE',
    message:
      '3 of Gasket, batch B-7 cannot be handed over as cores: 2 are owed by item 1, “Item 1”.',
    field: 'quantity',
  });
  expect(await core(shop, 'coreCameBack', back)).not.toHaveProperty('code');
  expect(await core(shop, 'coreSentBack', { lotId: lot.id, quantity: '1' })).not.toHaveProperty(
    'code',
  );
  // The order may be over long before the old part comes.
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: { orderId: visit.orderId, kind: 'released', outcome: 'airworthy' },
    }),
  );
  const { data } = await shop.as(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { coresOwed { quantity amount } } } }',
    { id: visit.order },
  );
  expect(data).toEqual({ node: { coresOwed: [{ quantity: '1', amount: '25000' }] } });
  expect(await core(shop, 'coreCameBack', back)).not.toHaveProperty('code');
  expect(await owed(shop)).toMatchObject({
    coresOwedByWork: [],
    coresOwedToSuppliers: [{ quantity: '3', amount: '75000', atHand: '1' }],
  });
  expect(await core(shop, 'coreSentBack', { lotId: lot.id, quantity: '3.001' })).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('3 are owed to Invented Supplies'),
  });
});

it('a lot keeps the charge that it came with; without one no core is owed', async () => {
  const { shop, part, delivery, itemId } = await stocked(api);
  const other = await makeVisit(shop, { inspection: null, items: [{ title: 'Other work' }] });
  await shop.inside((tx) =>
    tx.part.update({ where: { id: part.id }, data: { coreChargeMinor: 10_000n } }),
  );
  const exchanged = await move(shop, 'receiveLot', { ...delivery, batch: 'B-8' });
  const outright = await move(shop, 'receiveLot', { ...delivery, batch: 'B-9', coreCharge: null });
  await shop.inside((tx) =>
    tx.part.update({ where: { id: part.id }, data: { coreChargeMinor: 99_900n } }),
  );
  for (const lot of [exchanged, outright])
    await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1' });
  await move(shop, 'issuePart', { lotId: exchanged.id, itemId: other.items[0], quantity: '1.5' });
  expect((await owed(shop))?.coresOwedByWork).toEqual([
    { quantity: '1', amount: '10000', item: { title: 'Item 1' }, lot: { batch: 'B-8' } },
    { quantity: '1.5', amount: '15000', item: { title: 'Other work' }, lot: { batch: 'B-8' } },
  ]);
  expect(
    await core(shop, 'coreCameBack', { lotId: outright.id, itemId, quantity: '1' }),
  ).toMatchObject({ code: 'AGAINST_RULE', message: expect.stringContaining('0 are owed') });
  expect(await move(shop, 'receiveLot', { ...delivery, coreCharge: '0' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'coreCharge',
  });
});

it('what is sent twice is handed over once, and nothing to or from another shop', async () => {
  const { shop, lot, itemId } = await stocked(api, { coreCharge: '100' });
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '5' });
  const back = { lotId: lot.id, itemId, quantity: '2', clientEventId: crypto.randomUUID() };
  await Promise.all([1, 2].map(() => core(shop, 'coreCameBack', back)));
  expect((await owed(shop))?.coresOwedByWork).toMatchObject([{ quantity: '3', amount: '300' }]);
  expect(
    (
      await core(shop, 'coreSentBack', {
        lotId: lot.id,
        quantity: '1',
        clientEventId: back.clientEventId,
      })
    ).code,
  ).toBe('CONFLICT');
  const stranger = await stocked(api);
  expect((await core(stranger.shop, 'coreCameBack', back)).code).toBe('NOT_FOUND');
  expect((await owed(stranger.shop))?.coresOwedByWork).toEqual([]);
});
