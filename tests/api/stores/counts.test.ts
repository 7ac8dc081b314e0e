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

const historyOf = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: { movements: unknown[] } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Lot { movements { kind quantity counted reason by { name } } } } }',
    { id },
  );
  return data?.node.movements;
};

it('what is scrapped leaves the lot for its reason, under a name, and never more than is there', async () => {
  const { shop, lot } = await stocked(api);
  const scrap = { lotId: lot.id, quantity: '2.5', reason: 'Dropped, sealing face scratched' };
  expect(await move(shop, 'scrapPart', scrap)).toMatchObject({ onHand: '7.5' });
  expect(await move(shop, 'scrapPart', { ...scrap, quantity: '8' })).toMatchObject({
    code: 'AGAINST_RULE',
    message: '8 of Gasket, batch B-7 cannot be scrapped: the lot holds 7.5 (each).',
    field: 'quantity',
  });
  expect(await move(shop, 'scrapPart', { ...scrap, reason: ' x ' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  expect(await historyOf(shop, lot.id)).toEqual([
    { kind: 'receive', quantity: '10', counted: null, reason: '', by: { name: 'Test mechanic' } },
    {
      kind: 'scrap',
      quantity: '-2.5',
      counted: null,
      reason: 'Dropped, sealing face scratched',
      by: { name: 'Test mechanic' },
    },
  ]);
});

it('a count moves the lot by the difference, with who and why; one without difference is kept too', async () => {
  const { shop, lot } = await stocked(api);
  const count = (counted: string, expected: string, reason: string | null = null) =>
    move(shop, 'countLot', { lotId: lot.id, counted, expected, reason }, 'inspector');
  expect((await count('10', '10')).onHand).toBe('10');
  expect(await count('9', '10')).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringMatching(/^9 were counted of Gasket, batch B-7 where 10 should be/),
    field: 'reason',
  });
  expect((await count('9', '10', 'One lay behind the shelf')).onHand).toBe('9');
  expect((await count('9.25', '9', 'A quarter was booked twice')).onHand).toBe('9.25');
  expect((await count('0', '9.25', 'All were taken away')).onHand).toBe('0');
  expect(await historyOf(shop, lot.id)).toMatchObject([
    { kind: 'receive' },
    { kind: 'count', quantity: '0', counted: '10', reason: '', by: { name: 'Test inspector' } },
    { kind: 'count', quantity: '-1', counted: '9', reason: 'One lay behind the shelf' },
    { kind: 'count', quantity: '0.25', counted: '9.25' },
    { kind: 'count', quantity: '-9.25', counted: '0' },
  ]);
});

it('a count is against what was there: what moved meanwhile does not hide in it', async () => {
  const { shop, lot, itemId } = await stocked(api);
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1' });
  expect(
    await move(shop, 'countLot', { lotId: lot.id, counted: '9', expected: '10', reason: 'Short' }),
  ).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringMatching(/counted against 10 \(each\), and holds 9 by now/),
    field: 'expected',
  });
  expect(await historyOf(shop, lot.id)).toHaveLength(2);
});

it('what is sent twice is scrapped and counted once', async () => {
  const { shop, lot } = await stocked(api);
  const clientEventId = crypto.randomUUID();
  const scrap = { lotId: lot.id, quantity: '4', reason: 'Wrong size', clientEventId };
  const both = await Promise.all([1, 2].map(() => move(shop, 'scrapPart', scrap)));
  expect(both.map(({ onHand }) => onHand)).toEqual(['6', '6']);
  const count = { lotId: lot.id, counted: '5', expected: '6', reason: 'One missing' };
  const key = crypto.randomUUID();
  expect((await move(shop, 'countLot', { ...count, clientEventId: key })).onHand).toBe('5');
  // Sent again it is no longer against 6, and is answered all the same.
  expect((await move(shop, 'countLot', { ...count, clientEventId: key })).onHand).toBe('5');
  expect((await move(shop, 'countLot', { ...count, expected: '5', clientEventId })).code).toBe(
    'CONFLICT',
  );
});

it.each([
  ['scrapPart', { quantity: '0', reason: 'None' }, 'quantity'],
  ['scrapPart', { quantity: '1.0001', reason: 'None' }, 'quantity'],
  ['scrapPart', { quantity: '1', reason: 'x'.repeat(301) }, 'reason'],
  ['countLot', { counted: '-1', expected: '10' }, 'counted'],
  ['countLot', { counted: '1', expected: '100001' }, 'expected'],
  ['countLot', { counted: '10', expected: '10', clientEventId: 'once' }, 'clientEventId'],
] as const)('%s with %o is refused', async (name, given, field) => {
  const { shop, lot } = await stocked(api);
  expect(await move(shop, name, { lotId: lot.id, ...given })).toMatchObject({
    code: 'BAD_INPUT',
    field,
  });
});

it('the lots of another shop are nobody’s to scrap or to count', async () => {
  const { shop } = await stocked(api);
  const { lot } = await stocked(api);
  expect(
    (await move(shop, 'scrapPart', { lotId: lot.id, quantity: '1', reason: 'Not ours' })).code,
  ).toBe('NOT_FOUND');
  expect(
    (await move(shop, 'countLot', { lotId: lot.id, counted: '10', expected: '10' })).code,
  ).toBe('NOT_FOUND');
});
