import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';
import { expectDone, expectRefused, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const leave = (shop: TestShop, orderId: string, over = {}, role: Role = 'mechanic') =>
  mutate(
    shop,
    role,
    'leaveHandOver',
    {
      orderId,
      done: 'Left magneto on its studs.',
      notDone: 'Nuts to be torqued, lead to be fitted.',
      loose: 'both nuts of the left magneto',
      clientEventId: randomUUID(),
      ...over,
    },
    'done notDone loose by { name } takenOver { by { name } }',
  );
const take = (shop: TestShop, handOverId: string, over = {}, role: Role = 'inspector') =>
  mutate(
    shop,
    role,
    'takeOver',
    { handOverId, clientEventId: randomUUID(), ...over },
    'takenOver { at by { name } }',
  );
const finish = (shop: TestShop, itemId: string | undefined) =>
  mutate(shop, 'mechanic', 'finishItem', { itemId, workDone: 'Fitted by the manual.' }, 'state');

it('an item where somebody stopped shows it to everybody, and is not finished or put off until it is taken over', async () => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  const itemId = order.items[0]?.id;
  const left = expectDone(await leave(shop, order.id, { itemId }));
  const bench = await shop.as(
    'inspector',
    '{ bench { items { stoppedHere { done notDone loose by { name } } } } }',
  );
  expect(bench.data).toEqual({
    bench: {
      items: [
        {
          stoppedHere: [
            {
              done: 'Left magneto on its studs.',
              notDone: 'Nuts to be torqued, lead to be fitted.',
              loose: 'both nuts of the left magneto',
              by: { name: 'Test mechanic' },
            },
          ],
        },
      ],
    },
  });
  const refusal =
    /Test mechanic stopped at item 1, “Test item 1”, on .* UTC \(loose: both nuts of the left magneto\) and nobody has taken it over\. Read what is left/;
  expectRefused(await finish(shop, itemId), 'AGAINST_RULE', refusal);
  expectRefused(
    await mutate(shop, 'manager', 'putOffItem', { itemId, reason: 'No time.' }),
    'AGAINST_RULE',
    refusal,
  );
  expect(await take(shop, left.id ?? '')).toMatchObject({
    takenOver: { by: { name: 'Test inspector' } },
  });
  expect((await shop.as('mechanic', '{ bench { items { stoppedHere { id } } } }')).data).toEqual({
    bench: { items: [{ stoppedHere: [] }] },
  });
  expect(await finish(shop, itemId)).toMatchObject({ state: 'done' });
  expectRefused(await leave(shop, order.id, { itemId }), 'CONFLICT', /cannot be left half done/);
});

it('is taken over once: the same person again says nothing new, another is told who it was', async () => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  const { id = '' } = await leave(shop, order.id, { itemId: order.items[0]?.id });
  const clientEventId = randomUUID();
  const both = await Promise.all([
    take(shop, id, { clientEventId }),
    take(shop, id, { clientEventId }),
  ]);
  for (const answer of both) expectDone(answer);
  expectDone(await take(shop, id));
  expect(await shop.inside((tx) => tx.takeOver.count())).toBe(1);
  expectRefused(await take(shop, id, {}, 'manager'), 'CONFLICT', /Test inspector has taken this/);
  expectRefused(
    await take(shop, globalId('HandOver', randomUUID())),
    'NOT_FOUND',
    /no such hand-over/,
  );
  expectRefused(await take(await makeShop(api), id), 'NOT_FOUND', /no such hand-over/);
});

it('a shift leaves a note for the aircraft, and the release waits until the next has taken it over', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { inspection: null });
  await signEntry(shop, {
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
  });
  const { id = '' } = await leave(shop, visit.order, { loose: '', done: '' });
  const release = async () =>
    (
      await shop.as<{ releaseAircraft: { message?: string; state?: string } }>(
        'inspector',
        'mutation($input: ReleaseAircraftInput!) { releaseAircraft(input: $input) { ... on WorkOrder { state handOvers { takenOver { by { name } } } } ... on Refusal { message } } }',
        { input: { orderId: visit.order, outcome: 'airworthy' } },
      )
    ).data?.releaseAircraft;
  expect((await release())?.message).toMatch(
    /cannot be released: Test mechanic handed the aircraft over on .* UTC and nobody has taken it over\.$/,
  );
  // Whoever left it may be the one who comes back in the morning.
  expectDone(await take(shop, id, {}, 'mechanic'));
  expect(await release()).toEqual({
    state: 'released',
    handOvers: [{ takenOver: { by: { name: 'Test mechanic' } } }],
  });
});

it('refuses words that say nothing, a wrong role and an aircraft that is not here', async () => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  expectRefused(await leave(shop, order.id, { notDone: '  ' }), 'BAD_INPUT', /notDone has 0/);
  expectRefused(await leave(shop, order.id, {}, 'front_desk'), 'FORBIDDEN', /a mechanic/);
  const away = await makeOrder(shop, { arrived: false });
  expectRefused(await leave(shop, away.id), 'AGAINST_RULE', /has not arrived/);
});
