import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('receives, issues and takes back; the lot holds the sum of its movements', async () => {
  const { shop, lot, itemId } = await stocked(api);
  expect(lot.onHand).toBe('10');
  expect((await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '3.5' })).onHand).toBe(
    '6.5',
  );
  expect((await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '1.5' })).onHand).toBe(
    '8',
  );
  expect(
    await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '2.001' }),
  ).toMatchObject({ code: 'AGAINST_RULE', message: expect.stringMatching(/it had 2 of that lot/) });
  const { data } = await shop.as(
    'manager',
    '{ lots(inStock: true) { edges { node { batch tag part { title } movements { kind quantity item { position } } } } } }',
  );
  expect(data).toMatchObject({
    lots: {
      edges: [
        {
          node: {
            batch: 'B-7',
            tag: 'T-9',
            movements: [
              { kind: 'receive', quantity: '10' },
              { kind: 'issue', quantity: '-3.5' },
              { kind: 'return', quantity: '1.5' },
            ],
          },
        },
      ],
    },
  });
});

it('never goes below zero: not by one person, nor by two at once', async () => {
  const { shop, lot, itemId } = await stocked(api);
  expect(
    await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '10.001' }),
  ).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/the lot holds 10 \(each\)/),
    field: 'quantity',
  });
  const both = await Promise.all(
    [1, 2].map(() => move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '6' })),
  );
  expect(both.map(({ code }) => code ?? 'issued').sort()).toEqual(['AGAINST_RULE', 'issued']);
});

it('what is past its shelf life is not issued; its last day still counts', async () => {
  const today = new Date().toISOString().slice(0, 10);
  const good = await stocked(api, { shelfLifeUntil: today });
  expect(
    (await move(good.shop, 'issuePart', { lotId: good.lot.id, itemId: good.itemId, quantity: '1' }))
      .onHand,
  ).toBe('9');
  const old = await stocked(api, { shelfLifeUntil: '2026-01-31' });
  expect(
    await move(old.shop, 'issuePart', { lotId: old.lot.id, itemId: old.itemId, quantity: '1' }),
  ).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('was good until 2026-01-31'),
  });
});

it('what is sent twice moves once', async () => {
  const { shop, lot, itemId, delivery } = await stocked(api);
  const clientEventId = crypto.randomUUID();
  const both = await Promise.all(
    [1, 2].map(() =>
      move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '4', clientEventId }),
    ),
  );
  expect(both.map(({ onHand }) => onHand)).toEqual(['6', '6']);
  expect(
    (await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '4', clientEventId })).code,
  ).toBe('CONFLICT');
  const key = crypto.randomUUID();
  const lots = [
    await move(shop, 'receiveLot', { ...delivery, clientEventId: key }),
    await move(shop, 'receiveLot', { ...delivery, clientEventId: key }),
  ];
  expect(lots[1]?.id).toBe(lots[0]?.id);
});

it.each([
  ['quantity', '0'],
  ['quantity', '1.0001'],
  ['quantity', '100001'],
  ['unitCost', '-1'],
  ['supplier', ' '],
  ['batch', 'x'.repeat(81)],
  ['receivedOn', '2190-01-01'],
  ['clientEventId', 'once'],
])('a delivery with %s %s is refused', async (field, value) => {
  const { shop, delivery } = await stocked(api);
  expect(await move(shop, 'receiveLot', { ...delivery, [field]: value })).toMatchObject({
    code: 'BAD_INPUT',
    field,
  });
});

it('nothing goes to an order that is over, to another shop, or from one', async () => {
  const { shop, lot, visit, itemId, delivery } = await stocked(api);
  const other = await stocked(api);
  expect((await move(shop, 'issuePart', { lotId: other.lot.id, itemId, quantity: '1' })).code).toBe(
    'NOT_FOUND',
  );
  expect(
    (await move(shop, 'issuePart', { lotId: lot.id, itemId: other.itemId, quantity: '1' })).code,
  ).toBe('NOT_FOUND');
  expect((await move(other.shop, 'receiveLot', delivery)).code).toBe('NOT_FOUND');
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: { orderId: visit.orderId, kind: 'released', outcome: 'airworthy' },
    }),
  );
  expect(await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1' })).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('is released'),
  });
});

it('says what an item holds of which lot, and nothing of what all came back', async () => {
  const { shop, lot, delivery, itemId } = await stocked(api);
  const other = await move(shop, 'receiveLot', { ...delivery, batch: 'B-8' });
  const held = async () => {
    const { data } = await shop.as<{
      node: { parts: { quantity: string; lot: { batch: string } }[] };
    }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on WorkItem { parts { quantity lot { batch } } } } }',
      { id: itemId },
    );
    return data?.node.parts.map(({ quantity, lot: { batch } }) => [batch, quantity]);
  };
  expect(await held()).toEqual([]);
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '3.5' });
  await move(shop, 'issuePart', { lotId: other.id, itemId, quantity: '1' });
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '0.25' });
  expect(await held()).toEqual([
    ['B-7', '3.75'],
    ['B-8', '1'],
  ]);
  await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '3.75' });
  expect(await held()).toEqual([['B-8', '1']]);
});
