import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
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

it('everything from a lot: on which aircraft, how much, when, and whether it came back', async () => {
  const { shop, lot, visit, delivery, itemId } = await stocked(api);
  const { id: aircraftId } = await shop.inside((tx) =>
    tx.aircraft.create({
      data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-902', serial: '2' },
    }),
  );
  const second = await makeVisit(shop, { aircraftId, items: [{ title: 'Replace gasket' }] });
  const third = await makeVisit(shop, { aircraftId, items: [{}, {}] });
  const issue = (item: string | undefined, quantity: string) =>
    move(shop, 'issuePart', { lotId: lot.id, itemId: item, quantity });
  await issue(itemId, '1');
  await issue(second.items[0], '3');
  await issue(third.items[1], '2');
  await issue(itemId, '0.5');
  await move(shop, 'returnPart', { lotId: lot.id, itemId: second.items[0], quantity: '1' });
  await move(shop, 'returnPart', { lotId: lot.id, itemId: third.items[1], quantity: '2' });
  // Released since: what was fitted is still found.
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: { orderId: visit.orderId, kind: 'released', outcome: 'airworthy' },
    }),
  );
  const again = await move(shop, 'receiveLot', { ...delivery, batch: 'b-7', quantity: '1' });
  await move(shop, 'receiveLot', { ...delivery, batch: 'B-70', quantity: '1' });
  const { data } = await shop.as<{ node: { wentTo: { firstAt: string; lastAt: string }[] } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Lot { onHand sameBatch { id } wentTo {
      issued returned stillOn firstAt lastAt item { title order { number aircraft { registration } } } } } } }`,
    { id: lot.id },
  );
  const registration = (
    await shop.inside((tx) => tx.aircraft.findUniqueOrThrow({ where: { id: shop.aircraftId } }))
  ).registration;
  expect(data).toMatchObject({
    node: {
      onHand: '6.5',
      sameBatch: [{ id: again.id }],
      wentTo: [
        {
          issued: '1.5',
          returned: '0',
          stillOn: '1.5',
          item: { title: 'Item 1', order: { aircraft: { registration } } },
        },
        {
          issued: '3',
          returned: '1',
          stillOn: '2',
          item: { title: 'Replace gasket', order: { aircraft: { registration: 'QQ-902' } } },
        },
        { issued: '2', returned: '2', stillOn: '0', item: { title: 'Item 2' } },
      ],
    },
  });
  for (const { firstAt, lastAt } of data?.node.wentTo ?? [])
    expect(Date.parse(lastAt)).toBeGreaterThan(Date.parse(firstAt));
  // What was received is on the shelf, on aircraft, or scrapped: 10 = 6.5 + 3.5.
  const onAircraft = (data?.node.wentTo as unknown as { stillOn: string }[]).reduce(
    (sum, { stillOn }) => sum + Number(stillOn),
    0,
  );
  expect(onAircraft + 6.5).toBe(10);
});

it('nobody of another shop learns where a lot went', async () => {
  const { lot, itemId, shop } = await stocked(api);
  await move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1' });
  const stranger = await stocked(api);
  const { data } = await stranger.shop.as(
    'manager',
    'query($id: ID!) { node(id: $id) { id ... on Lot { wentTo { issued } } } }',
    { id: lot.id },
  );
  expect(data).toEqual({ node: null });
});
