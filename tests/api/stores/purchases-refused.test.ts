import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { order, ordered } from './purchase-shop.ts';
import { move } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('nothing is received of a draft, of another part’s line, or of another shop’s order', async () => {
  const { shop, delivery, made } = await ordered(api);
  const line = made.lines[0]?.id;
  const receive = (over: Record<string, unknown>) =>
    move(shop, 'receiveLot', { ...delivery, quantity: '1', purchaseLineId: line, ...over });
  expect(await receive({})).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('is a draft: nothing is expected of it'),
  });
  await order(shop, 'sendPurchase', { orderId: made.id, channel: 'other' });
  const other = await shop.inside((tx) =>
    tx.part.create({ data: { shopId: shop.shopId, number: 'X', title: 'X', unitPrice: '1' } }),
  );
  expect(await receive({ partId: globalId('Part', other.id) })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'purchaseLineId',
  });
  const foreign = await ordered(api);
  expect(await receive({ purchaseLineId: foreign.made.lines[0]?.id })).toMatchObject({
    code: 'NOT_FOUND',
  });
  expect(
    (await order(shop, 'sendPurchase', { orderId: foreign.made.id, channel: 'other' })).code,
  ).toBe('NOT_FOUND');
});

it('lists what fell below its reorder point, counting what is free and what is on order', async () => {
  const { shop, part, lot, visit, made } = await ordered(api);
  const toOrder = async () => {
    const { data } = await shop.as<{ partsToOrder: unknown[] }>(
      'front_desk',
      '{ partsToOrder { free onOrder missing part { number } } }',
    );
    return data?.partsToOrder;
  };
  await shop.inside((tx) =>
    tx.part.update({ where: { id: part.id }, data: { reorderPoint: '10' } }),
  );
  // At the point it is not below it.
  expect(await toOrder()).toEqual([]);
  await move(shop, 'reservePart', { lotId: lot.id, orderId: visit.order, quantity: '4' });
  expect(await toOrder()).toEqual([
    { free: '6', onOrder: '0', missing: '4', part: { number: 'G-1' } },
  ]);
  await order(shop, 'sendPurchase', { orderId: made.id, channel: 'other' });
  expect(await toOrder()).toEqual([]);
  await order(shop, 'cancelPurchase', { orderId: made.id, reason: 'Ordered elsewhere' });
  expect(await toOrder()).toHaveLength(1);
});

it.each([
  [{ supplier: ' ' }, 'supplier'],
  [{ supplierEmail: 'nowhere' }, 'supplierEmail'],
  [{ expectedOn: '2020-01-01' }, 'expectedOn'],
  [{ lines: [] }, 'lines'],
  [{ note: 'x'.repeat(501) }, 'note'],
])('a draft with %o is refused', async (over, field) => {
  const { shop, draft } = await ordered(api);
  expect(await order(shop, 'draftPurchase', { ...draft, ...over })).toMatchObject({
    code: 'BAD_INPUT',
    field,
  });
});

it('a mechanic orders nothing, an e-mail needs an address, and what was sent takes no further line', async () => {
  const { shop, draft, made } = await ordered(api, { supplierEmail: null });
  expect((await order(shop, 'draftPurchase', draft, 'mechanic')).code).toBe('FORBIDDEN');
  expect(await order(shop, 'sendPurchase', { orderId: made.id, channel: 'email' })).toMatchObject({
    code: 'AGAINST_RULE',
    field: 'channel',
  });
  await order(shop, 'sendPurchase', { orderId: made.id, channel: 'other' });
  await expect(
    shop.inside(async (tx) => {
      const { id, lines } = await tx.purchaseOrder.findFirstOrThrow({ include: { lines: true } });
      return tx.purchaseLine.create({
        data: {
          orderId: id,
          position: 3,
          partId: lines[0]?.partId ?? '',
          quantity: '1',
          unitCost: '1',
        },
      });
    }),
  ).rejects.toThrow(/was sent or cancelled/);
});
