import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Order {
  id: string;
  number: number;
  state: string;
  total: string;
  lines: { id: string; quantity: string; received: string; net: string }[];
  code?: string;
  message?: string;
  field?: string;
}
async function order(
  shop: TestShop,
  name: 'draftPurchase' | 'sendPurchase' | 'cancelPurchase',
  input: Record<string, unknown>,
  role: Role = 'front_desk',
): Promise<Order> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Order }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on PurchaseOrder { id number state total lines { id quantity received net } } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}
const read = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: Order }>(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on PurchaseOrder { id number state total lines { id quantity received net } } } }',
    { id },
  );
  return data?.node;
};

const soon = new Date(Date.now() + 4 * 86_400_000).toISOString().slice(0, 10);
async function ordered(over: Record<string, unknown> = {}) {
  const made = await stocked(api);
  const draft = {
    supplier: 'Invented Supplies',
    supplierEmail: 'orders@supplies.example',
    expectedOn: soon,
    lines: [
      { partId: globalId('Part', made.part.id), quantity: '6', unitCost: '4.125' },
      { partId: globalId('Part', made.part.id), quantity: '2.5', unitCost: '0' },
    ],
    ...over,
  };
  return { ...made, draft, made: await order(made.shop, 'draftPurchase', draft) };
}
const partOf = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: { onOrder: string; free: string; shortage: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Part { onOrder free shortage(wanted: "50") } } }',
    { id: globalId('Part', id) },
  );
  return data?.node;
};

it('an order is drafted, sent, received line by line; what came are lots that name it', async () => {
  const { shop, part, delivery, made } = await ordered();
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
  expect(await read(shop, made.id)).toMatchObject({
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
  expect(await read(shop, made.id)).toMatchObject({ state: 'received' });
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
  const { shop, draft, made } = await ordered();
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
  const { shop, part, delivery, made } = await ordered();
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

it('nothing is received of a draft, of another part’s line, or of another shop’s order', async () => {
  const { shop, delivery, made } = await ordered();
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
  const foreign = await ordered();
  expect(await receive({ purchaseLineId: foreign.made.lines[0]?.id })).toMatchObject({
    code: 'NOT_FOUND',
  });
  expect(
    (await order(shop, 'sendPurchase', { orderId: foreign.made.id, channel: 'other' })).code,
  ).toBe('NOT_FOUND');
});

it('lists what fell below its reorder point, counting what is free and what is on order', async () => {
  const { shop, part, lot, visit, made } = await ordered();
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
  const { shop, draft } = await ordered();
  expect(await order(shop, 'draftPurchase', { ...draft, ...over })).toMatchObject({
    code: 'BAD_INPUT',
    field,
  });
});

it('a mechanic orders nothing, an e-mail needs an address, and what was sent takes no further line', async () => {
  const { shop, draft, made } = await ordered({ supplierEmail: null });
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
