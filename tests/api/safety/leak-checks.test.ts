import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry, type Visit } from '../../support/visit.ts';
import { expectDone, expectRefused, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const look = (shop: TestShop, orderId: string, over = {}) =>
  mutate(
    shop,
    'mechanic',
    'recordLeakCheck',
    { orderId, kind: 'after_standing', seen: 'dry', clientEventId: randomUUID(), ...over },
    'seen fluid stainInches fuelLeak words by { name } finding { number }',
  );
const appoint = (shop: TestShop, orderId: string, plannedFor: Date, over = {}) =>
  mutate(
    shop,
    'mechanic',
    'appointLook',
    {
      orderId,
      kind: 'after_standing',
      plannedFor: plannedFor.toISOString(),
      clientEventId: randomUUID(),
      ...over,
    },
    'plannedFor seen',
  );
const standings = async (shop: TestShop, id: string) =>
  (
    await shop.as<{ node: { leakChecks: { kind: string; state: string }[] } }>(
      'mechanic',
      'query($id: ID!) { node(id: $id) { ... on WorkOrder { leakChecks { kind state last { at } } } } }',
      { id },
    )
  ).data?.node.leakChecks.map(({ kind, state }) => `${kind}: ${state}`);
const release = async (shop: TestShop, { order }: Visit, outcome = 'airworthy') => {
  const { data } = await shop.as<{ releaseAircraft: { message?: string; state?: string } }>(
    'inspector',
    'mutation($input: ReleaseAircraftInput!) { releaseAircraft(input: $input) { ... on WorkOrder { state } ... on Refusal { message } } }',
    { input: { orderId: order, outcome } },
  );
  return data?.releaseAircraft;
};
const signed = async (shop: TestShop, shape = {}, outcome = 'airworthy') => {
  const visit = await makeVisit(shop, { leakChecks: false, ...shape });
  const entry = await signEntry(shop, {
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
    outcome,
  });
  expect(entry.message).toBeUndefined();
  return visit;
};
const inHours = (hours: number) => new Date(Date.now() + hours * 3_600_000);

it('an inspection is not released without a look after standing and one after the run-up', async () => {
  const shop = await makeShop(api);
  const visit = await signed(shop);
  expect(await standings(shop, visit.order)).toEqual([
    'after_standing: missing',
    'after_run_up: missing',
  ]);
  expect((await release(shop, visit))?.message).toMatch(
    /the leak check after standing is missing: look, and record what was seen\. 1 more: the leak check after the run-up is missing/,
  );
  expectDone(await look(shop, visit.order));
  expect((await release(shop, visit))?.message).toMatch(/after the run-up is missing/);
  expect(await look(shop, visit.order, { kind: 'after_run_up' })).toMatchObject({
    seen: 'dry',
    by: { name: 'Test mechanic' },
  });
  expect(await standings(shop, visit.order)).toEqual(['after_standing: dry', 'after_run_up: dry']);
  expect(await release(shop, visit)).toEqual({ state: 'released' });
});

it('what leaks needs a finding; and another look once that is corrected', async () => {
  const shop = await makeShop(api);
  const visit = await signed(
    shop,
    { findings: [{ title: 'Seep at the sump drain', class: 'discrepancy' }] },
    'not_airworthy_list_given',
  );
  const list = () => release(shop, visit, 'not_airworthy_list_given');
  await look(shop, visit.order, { kind: 'after_run_up' });
  expect(
    await look(shop, visit.order, {
      seen: 'stain',
      fluid: 'fuel',
      stainInches: '1.2',
      words: 'below the sump drain',
    }),
  ).toMatchObject({ seen: 'stain', stainInches: '1.2', fuelLeak: 'seep' });
  expect((await list())?.message).toMatch(
    /the leak check after standing saw a stain and names no finding: note one/,
  );
  const finding = globalId('Finding', visit.findingIds[0] ?? '');
  expect(
    await look(shop, visit.order, { seen: 'running_leak', fluid: 'fuel', findingId: finding }),
  ).toMatchObject({ fuelLeak: 'running_leak', finding: { number: 1 } });
  expect(await standings(shop, visit.order)).toEqual([
    'after_standing: found',
    'after_run_up: dry',
  ]);
  // Corrected by an item of its own: what was seen before says nothing of now.
  await shop.inside(async (tx) => {
    const { id: itemId } = await tx.workItem.create({
      data: {
        orderId: visit.orderId,
        position: 2,
        title: 'Drain valve replaced',
        jasc: '2820',
        findingId: visit.findingIds[0] ?? '',
      },
    });
    await tx.itemEvent.create({
      data: { itemId, kind: 'done', workDone: 'Replaced.', byId: shop.people.mechanic.id },
    });
  });
  expect((await list())?.message).toMatch(
    /what the leak check after standing saw was corrected \(finding 1\): look again/,
  );
  expectDone(await look(shop, visit.order));
  expect((await list())?.message).not.toMatch(/leak check|look again/);
});

it('an appointed look keeps the aircraft on its stand, its promise back, and its release', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { inspection: null });
  await signEntry(shop, { orderId: visit.order, bookId: globalId('RecordBook', shop.bookId) });
  const at = { startsAt: inHours(-5), standId: shop.standId, aircraftId: shop.aircraftId };
  await shop.inside(async (tx) => {
    await tx.stay.create({ data: { ...at, kind: 'planned', endsAt: inHours(2) } });
    await tx.stay.create({ data: { ...at, kind: 'actual', orderId: visit.orderId } });
  });
  const promise = async () =>
    (
      await shop.as<{ node: { promise: { p80: string | null; sentence: string } | null } }>(
        'front_desk',
        'query($id: ID!) { node(id: $id) { ... on WorkOrder { promise { p80 sentence } } } }',
        { id: visit.order },
      )
    ).data?.node.promise;
  const plannedFor = inHours(72);
  expectDone(await appoint(shop, visit.order, plannedFor));
  expect(await standings(shop, visit.order)).toEqual(['after_standing: appointed']);
  const [plan] = await shop.inside((tx) => tx.stay.findMany({ where: { kind: 'planned' } }));
  expect(plan?.endsAt?.getTime()).toBe(plannedFor.getTime());
  expect(await promise()).toMatchObject({
    p80: plannedFor.toISOString().slice(0, 10),
    sentence: expect.stringContaining('the wait for the leak check'),
  });
  expect((await release(shop, visit))?.message).toMatch(
    /the leak check after standing is appointed for .* UTC and not recorded/,
  );
  expectDone(await look(shop, visit.order));
  expect(await release(shop, visit)).toEqual({ state: 'released' });
});

it('refuses half a sight, a time that is over, and what is not of this visit', async () => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop);
  const seen = (over: object) => look(shop, order.id, over);
  expectRefused(await seen({ seen: 'stain', fluid: 'oil' }), 'BAD_INPUT', /without its size/);
  expectRefused(await seen({ seen: 'stain', stainInches: '1' }), 'BAD_INPUT', /No fluid/);
  expectRefused(await seen({ fluid: 'oil' }), 'BAD_INPUT', /dry was given with a fluid/);
  expectRefused(
    await seen({ seen: 'running_leak', fluid: 'oil', stainInches: '1' }),
    'BAD_INPUT',
    /running leak was given with the size/,
  );
  expectRefused(
    await seen({ seen: 'stain', fluid: 'oil', stainInches: '0' }),
    'BAD_INPUT',
    /stainInches is 0/,
  );
  const other = await makeVisit(shop, { findings: [{ title: 'Other', class: 'observation' }] });
  expectRefused(
    await seen({
      seen: 'running_leak',
      fluid: 'oil',
      findingId: globalId('Finding', other.findingIds[0] ?? ''),
    }),
    'BAD_INPUT',
    /of another order/,
  );
  expectRefused(await appoint(shop, order.id, inHours(-1)), 'BAD_INPUT', /the next 31 days/);
  expectRefused(await appoint(shop, order.id, inHours(800)), 'BAD_INPUT', /the next 31 days/);
  const away = await makeOrder(shop, { arrived: false });
  expectRefused(await look(shop, away.id), 'AGAINST_RULE', /has not arrived/);
  const clientEventId = randomUUID();
  const both = await Promise.all([seen({ clientEventId }), seen({ clientEventId })]);
  expect(expectDone(both[0]).id).toBe(expectDone(both[1]).id);
});
