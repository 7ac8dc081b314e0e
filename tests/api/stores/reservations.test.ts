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

/** Two orders: one here, the other to come. */
async function two() {
  const made = await stocked(api);
  const other = await makeVisit(made.shop, { inspection: null });
  const { shop, lot, visit } = made;
  const forOrder =
    (order: string) =>
    (quantity: string, over: Record<string, unknown> = {}) =>
      move(shop, 'reservePart', { lotId: lot.id, orderId: order, quantity, ...over });
  return {
    ...made,
    other,
    reserve: forOrder(visit.order),
    reserveOther: forOrder(other.order),
    issue: (quantity: string, over: Record<string, unknown> = {}) =>
      move(shop, 'issuePart', { lotId: lot.id, itemId: made.itemId, quantity, ...over }),
  };
}

const keptOf = async (shop: TestShop, lot: string) => {
  const { data } = await shop.as<{
    node: { reserved: string; reservedFor: { quantity: string; order: { number: number } }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Lot { reserved reservedFor { quantity order { number } } reservations { kind quantity by { name } } } } }',
    { id: lot },
  );
  return data?.node;
};

it('what is reserved is not free; never more is reserved than lies free, not even by two at once', async () => {
  const { shop, lot, reserve, reserveOther } = await two();
  expect(await reserve('6')).toMatchObject({ onHand: '10', available: '4' });
  expect(await reserveOther('4.5')).toMatchObject({
    code: 'AGAINST_RULE',
    message:
      '4.5 of Gasket, batch B-7 cannot be reserved: it holds 10 (each), of which 4 are free.',
    field: 'quantity',
  });
  const both = await Promise.all([reserve('3'), reserveOther('3')]);
  expect(both.map(({ code }) => code ?? 'kept').sort()).toEqual(['AGAINST_RULE', 'kept']);
  expect((await keptOf(shop, lot.id))?.reserved).toBe('9');
});

it('an issue takes from its own order’s reservation first, and what comes back is free', async () => {
  const { shop, lot, itemId, visit, reserve, issue } = await two();
  await reserve('3');
  expect(await issue('2')).toMatchObject({ onHand: '8', available: '7' });
  expect((await keptOf(shop, lot.id))?.reservedFor).toMatchObject([{ quantity: '1' }]);
  expect(await issue('4')).toMatchObject({ onHand: '4', available: '4' });
  expect(await keptOf(shop, lot.id)).toMatchObject({ reserved: '0', reservedFor: [] });
  expect(await move(shop, 'returnPart', { lotId: lot.id, itemId, quantity: '6' })).toMatchObject({
    onHand: '10',
    available: '10',
  });
  const { data } = await shop.as(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { reserved { quantity } } } }',
    { id: visit.order },
  );
  expect(data).toEqual({ node: { reserved: [] } });
});

it('what is reserved for others goes to this order only by saying so, with a reason that is kept', async () => {
  const { shop, lot, reserveOther, issue } = await two();
  await reserveOther('8');
  expect(await issue('3')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(
      /^3 of Gasket, batch B-7 would take what is reserved for another order: 2 are free for this one/,
    ),
    field: 'quantity',
  });
  expect(await issue('3', { despite: ['past_shelf_life'], reason: 'Wrong word' })).toMatchObject({
    code: 'AGAINST_RULE',
  });
  expect(await issue('3', { despite: ['reserved_for_others'] })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  expect(
    await issue('3', { despite: ['reserved_for_others'], reason: 'Aircraft on ground' }),
  ).toMatchObject({ onHand: '7', available: '-1' });
  // Fewer are there now than were reserved: nothing more is free, and it is said.
  expect(await issue('1')).toMatchObject({ code: 'AGAINST_RULE', field: 'quantity' });
  const { data } = await shop.as(
    'inspector',
    'query($id: ID!) { node(id: $id) { ... on Lot { movements { kind despite reason by { name } } } } }',
    { id: lot.id },
  );
  expect(data).toMatchObject({
    node: {
      movements: [
        { kind: 'receive', despite: [] },
        {
          kind: 'issue',
          despite: ['reserved_for_others'],
          reason: 'Aircraft on ground',
          by: { name: 'Test mechanic' },
        },
      ],
    },
  });
});

it('what is reserved is given free in part or whole, by hand or by the end of the order', async () => {
  const { shop, lot, visit, other, reserve, reserveOther } = await two();
  await reserve('5');
  await reserveOther('5');
  const release = (quantity: string) =>
    move(shop, 'releaseReserved', { lotId: lot.id, orderId: visit.order, quantity });
  expect(await release('6')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/cannot be given free by order \d+: 5 are reserved for it\.$/),
  });
  expect(await release('2')).toMatchObject({ available: '2' });
  for (const [kind, orderId] of [
    ['cancelled', other.orderId],
    ['released', visit.orderId],
  ] as const)
    await shop.inside((tx) =>
      tx.orderEvent.create({
        data: { orderId, kind, ...(kind === 'released' && { outcome: 'airworthy' as const }) },
      }),
    );
  expect(await keptOf(shop, lot.id)).toMatchObject({
    reserved: '0',
    reservedFor: [],
    reservations: [{ kind: 'reserved' }, { kind: 'reserved' }, { kind: 'released', quantity: '2' }],
  });
  expect(await reserve('1')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/^Order \d+ is released: parts are kept for an order/),
    field: 'orderId',
  });
});

it('what is sent twice is reserved once', async () => {
  const { reserve, reserveOther } = await two();
  const clientEventId = crypto.randomUUID();
  const both = await Promise.all([1, 2].map(() => reserve('4', { clientEventId })));
  expect(both.map(({ available }) => available)).toEqual(['6', '6']);
  expect((await reserveOther('4', { clientEventId })).code).toBe('CONFLICT');
});

it('the database itself reserves nothing that does not lie there, and gives nothing free that was not reserved', async () => {
  const { shop, visit, itemId } = await two();
  const lot = await shop.inside((tx) => tx.lot.findFirstOrThrow());
  const event = { lotId: lot.id, orderId: visit.orderId, byId: shop.people.mechanic.id };
  const write = (kind: 'reserved' | 'released', quantity: string) =>
    shop.inside((tx) => tx.reservationEvent.create({ data: { ...event, kind, quantity } }));
  await write('reserved', '10');
  await expect(write('reserved', '0.001')).rejects.toThrow(/reserved_lies_there/);
  await write('released', '9');
  await expect(write('released', '1.001')).rejects.toThrow(/reserved_lies_there/);
  await expect(
    shop.inside((tx) =>
      tx.stockMovement.create({
        data: {
          lotId: lot.id,
          itemId: visit.itemIds[0] ?? itemId,
          kind: 'issue',
          quantity: '-2',
          fromReserved: '2',
        },
      }),
    ),
  ).rejects.toThrow(/reserved_lies_there/);
});

it('nothing of another shop is reserved, nor for its orders', async () => {
  const { shop, lot, visit } = await two();
  const foreign = await two();
  expect(
    (
      await move(shop, 'reservePart', {
        lotId: foreign.lot.id,
        orderId: visit.order,
        quantity: '1',
      })
    ).code,
  ).toBe('NOT_FOUND');
  expect(
    (
      await move(shop, 'reservePart', {
        lotId: lot.id,
        orderId: foreign.visit.order,
        quantity: '1',
      })
    ).code,
  ).toBe('NOT_FOUND');
});
