import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { order, ordered, partOf, readOrder, soon } from './purchase-shop.ts';
import { move } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('an order is drafted, sent, received line by line; what came are lots that name it', async () => {
  const { shop, part, delivery, made } = await ordered(api);
  // 6 × 4.125 = 24.75 (EN 16931, BT-131: rounded once for each line).
  expect(made).toMatchObject({ state: 'draft', total: '2475' });
  expect(made.lines.map(({ net }) => net)).toEqual(['2475', '0']);
  expect(await partOf(shop, part.id)).toMatchObject({ onOrder: '0' });
  expect(
    await order(shop, 'sendPurchase', { orderId: made.id, channel: 'telephone' }),
  ).toMatchObject({ state: 'sent' });
  expect(await partOf(shop, part.id)).toEqual({
    onOrder: '8.5',
    free: '10',
    shortage: `10 free on the shelf where 50 are wanted; 8.5 on order, expected ${soon}.`,
  });
  const [first, second] = made.lines;
  const receive = (line: string | undefined, quantity: string) =>
    move(shop, 'receiveLot', { ...delivery, purchaseLineId: line, quantity });
  const lot = await receive(first?.id, '4');
  expect(lot.onHand).toBe('4');
  expect(await readOrder(shop, made.id)).toMatchObject({
    state: 'received_in_part',
    lines: [{ received: '4' }, { received: '0' }],
  });
  expect(await receive(first?.id, '2.001')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(
      /^2\.001 of Gasket are more than purchase order \d+ still expects, which is 2 \(each\)/,
    ),
    field: 'quantity',
  });
  await receive(first?.id, '2');
  await receive(second?.id, '2.5');
  expect(await readOrder(shop, made.id)).toMatchObject({ state: 'received' });
  expect(await partOf(shop, part.id)).toMatchObject({ onOrder: '0', free: '18.5' });
  const { data } = await shop.as(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on Lot { purchaseLine { position order { number } } } } }',
    { id: lot.id },
  );
  expect(data).toEqual({ node: { purchaseLine: { position: 1, order: { number: made.number } } } });
  // What was issued since does not reopen the order: it is what came that counts.
  expect(
    await order(shop, 'cancelPurchase', { orderId: made.id, reason: 'Too late' }),
  ).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('nothing left to cancel'),
  });
});

it('numbers run without gaps, whatever is refused in between and whoever drafts at once', async () => {
  const { shop, draft, made } = await ordered(api);
  const wrong = {
    ...draft,
    lines: [...draft.lines, { ...draft.lines[0], partId: globalId('Part', crypto.randomUUID()) }],
  };
  const answers = await Promise.all(
    Array.from({ length: 8 }, (_, index) =>
      order(shop, 'draftPurchase', index % 2 ? wrong : draft),
    ),
  );
  expect(answers.map(({ code }) => code ?? 'drafted').sort()).toEqual([
    ...Array.from({ length: 4 }, () => 'NOT_FOUND'),
    ...Array.from({ length: 4 }, () => 'drafted'),
  ]);
  const numbers = await shop.inside((tx) =>
    tx.purchaseOrder.findMany({ select: { number: true }, orderBy: { number: 'asc' } }),
  );
  expect(numbers.map(({ number }) => number)).toEqual([0, 1, 2, 3, 4].map((n) => made.number + n));
  const clientEventId = crypto.randomUUID();
  const twice = await Promise.all(
    [1, 2].map(() => order(shop, 'draftPurchase', { ...draft, clientEventId })),
  );
  expect(twice.map(({ id, code }) => id ?? code)).toContain(
    globalId('PurchaseOrder', clientEventId),
  );
  expect(await shop.inside((tx) => tx.purchaseOrder.count())).toBe(6);
});

it('a cancelled order expects nothing more, and what hung on its day is told that nobody knows', async () => {
  const { shop, part, delivery, made } = await ordered(api);
  await order(shop, 'sendPurchase', { orderId: made.id, channel: 'email' });
  await move(shop, 'receiveLot', {
    ...delivery,
    purchaseLineId: made.lines[0]?.id,
    quantity: '6',
  });
  expect(await order(shop, 'cancelPurchase', { orderId: made.id, reason: ' ' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  expect(
    await order(shop, 'cancelPurchase', { orderId: made.id, reason: 'Supplier has none' }),
  ).toMatchObject({ state: 'cancelled' });
  expect(await partOf(shop, part.id)).toMatchObject({ onOrder: '0' });
  const said = await shop.inside((tx) =>
    tx.expectation.findMany({ orderBy: { id: 'asc' }, select: { expectedOn: true } }),
  );
  expect(said.map(({ expectedOn }) => expectedOn?.toISOString().slice(0, 10) ?? null)).toEqual([
    soon,
    soon,
    null,
  ]);
  expect(
    await move(shop, 'receiveLot', {
      ...delivery,
      purchaseLineId: made.lines[1]?.id,
      quantity: '1',
    }),
  ).toMatchObject({ code: 'AGAINST_RULE', field: 'purchaseLineId' });
  expect(await order(shop, 'sendPurchase', { orderId: made.id, channel: 'other' })).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('is cancelled: only a draft is sent'),
  });
});
