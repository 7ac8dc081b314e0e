/** Storage after completion, by the shop's own rule, proposed and never added by itself; what is unpaid is said at collection and keeps nothing. Common practice, no source. */
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { bill, draft, makeSold, release, type SoldVisit } from './billing.ts';

// In New York: summer time begins on 8 March 2026 at 2:00.
const FRIDAY = new Date('2026-03-06T22:00:00-05:00');
let now = FRIDAY;
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const say = async (
  shop: TestShop,
  name: string,
  type: string,
  input: object,
  role: Role = 'front_desk',
) => {
  const { data, errors } = await shop.as<{
    done: { id?: string; code?: string; message?: string };
  }>(
    role,
    `mutation($input: ${name[0]?.toUpperCase()}${name.slice(1)}Input!) { done: ${name}(input: $input) { ... on ${type} { id } ... on Refusal { code message } } }`,
    { input },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
const tell = (shop: TestShop, { order }: SoldVisit, over: object = {}, role: Role = 'front_desk') =>
  say(
    shop,
    'tellReady',
    'WorkOrder',
    { orderId: order, told: 'Test Owner', channel: 'telephone', ...over },
    role,
  );
const storage = async (shop: TestShop, { order }: SoldVisit) => {
  const { data } = await shop.as<{
    node: { storage: object | null; charges: { title: string; amount: string }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { storage { toldOn lastOn left freeDays dayPrice days charged open } charges { title amount } } } }',
    { id: order },
  );
  return data?.node;
};
const sold = async () => {
  const shop = await makeShop(api, { timeZone: 'America/New_York' });
  const visit = await makeSold(shop, {
    lines: [{ title: 'Inspection', pricing: 'fixed', likelyMinor: 40_000n, unitPrice: '400' }],
    ceiling: 100_000n,
    items: [{ line: 0, seconds: 3600 }],
  });
  return { shop, visit };
};
const later = (days: number) => {
  now = new Date(FRIDAY.getTime() + days * 86_400_000);
};

it('is off until it is set, counts civil days of the shop, and is charged only as it was shown', async () => {
  now = FRIDAY;
  const { shop, visit } = await sold();
  expect(await tell(shop, visit)).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('ready when its work is signed for'),
  });
  await release(shop, visit);
  await tell(shop, visit);
  later(30);
  expect(await storage(shop, visit)).toEqual({ storage: null, charges: [] });
  later(0);
  expect(
    await say(shop, 'setStorageRule', 'Shop', { freeDays: 2, dayPrice: '25.50' }),
  ).toMatchObject({ code: 'FORBIDDEN' });
  await say(shop, 'setStorageRule', 'Shop', { freeDays: 2, dayPrice: '25.50' }, 'manager');

  // Told on Friday the 6th at ten in the evening, when it is Saturday in UTC already.
  later(2);
  expect((await storage(shop, visit))?.storage).toMatchObject({
    toldOn: '2026-03-06',
    lastOn: '2026-03-08',
    days: 0,
    open: '0',
  });
  // Told again it is the first time that counts. Wednesday the 11th: five days on, two of them free.
  await tell(shop, visit, { told: 'Test Operator' });
  later(5);
  expect(await storage(shop, visit)).toEqual({
    storage: {
      toldOn: '2026-03-06',
      lastOn: '2026-03-11',
      left: false,
      freeDays: 2,
      dayPrice: '25.5',
      days: 3,
      charged: 0,
      open: '7650',
    },
    charges: [],
  });
  expect(await draft(shop, visit)).toMatchObject({ net: '40000' });

  const charge = (days: number, role: Role = 'front_desk') =>
    say(shop, 'chargeStorage', 'OrderCharge', { orderId: visit.order, days }, role);
  expect(await charge(3, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  expect(await charge(2)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('it is 3 now, 76.50 USD'),
  });
  expect((await charge(3)).id).toBeTruthy();
  expect(await charge(3)).toMatchObject({ code: 'AGAINST_RULE' });
  // Four days on: what is charged stays, the rest is proposed.
  later(9);
  expect(await storage(shop, visit)).toMatchObject({
    storage: { days: 7, charged: 3, open: '10200' },
    charges: [{ title: 'Storage, 3 days until 2026-03-11, told ready 2026-03-06', amount: '7650' }],
  });
  expect(await draft(shop, visit)).toMatchObject({ net: '47650' });
  // Switched off, nothing more is proposed; what was charged stays.
  await say(shop, 'setStorageRule', 'Shop', { freeDays: 2 }, 'manager');
  expect(await storage(shop, visit)).toMatchObject({
    storage: null,
    charges: [{ amount: '7650' }],
  });
});

it('ends on the day on which the aircraft left, whatever stand it was moved to meanwhile', async () => {
  now = FRIDAY;
  const { shop, visit } = await sold();
  await release(shop, visit);
  await say(shop, 'setStorageRule', 'Shop', { freeDays: 0, dayPrice: '10' }, 'manager');
  await tell(shop, visit);
  const at = (days: number) => new Date(FRIDAY.getTime() + days * 86_400_000);
  await shop.inside(async (tx) => {
    const stay = { aircraftId: shop.aircraftId, standId: shop.standId, kind: 'actual' as const };
    await tx.stay.create({ data: { ...stay, startsAt: at(-5), endsAt: at(1) } });
    await tx.stay.create({ data: { ...stay, startsAt: at(1), endsAt: at(4) } });
    // A year later it comes for something else.
    await tx.stay.create({ data: { ...stay, startsAt: at(30) } });
  });
  later(40);
  expect((await storage(shop, visit))?.storage).toMatchObject({
    left: true,
    lastOn: '2026-03-10',
    days: 4,
    open: '4000',
  });
});

it('what is open on the aircraft is said, from every order of it, and hinders neither hand-back nor departure', async () => {
  now = FRIDAY;
  const { shop, visit } = await sold();
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: id });
  const open = async () =>
    (
      await shop.as<{ node: { aircraft: { openInvoices: { number: number; owed: string }[] } } }>(
        'mechanic',
        'query($id: ID!) { node(id: $id) { ... on WorkOrder { aircraft { openInvoices { number owed } } } } }',
        { id: visit.order },
      )
    ).data?.node.aircraft.openInvoices;
  expect(await open()).toEqual([{ number: 1, owed: '40000' }]);
  expect(await say(shop, 'closeOrder', 'WorkOrder', { orderId: visit.order })).toEqual({
    id: visit.order,
  });
  await shop.inside((tx) =>
    tx.stay.create({
      data: {
        aircraftId: shop.aircraftId,
        standId: shop.standId,
        kind: 'actual',
        startsAt: FRIDAY,
      },
    }),
  );
  now = new Date(FRIDAY.getTime() + 3_600_000);
  const left = await shop.as<{ done: { __typename: string } }>(
    'front_desk',
    'mutation($input: DepartAircraftInput!) { done: departAircraft(input: $input) { __typename } }',
    { input: { aircraftId: Buffer.from(`Aircraft:${shop.aircraftId}`).toString('base64') } },
  );
  expect(left.data?.done.__typename).not.toBe('Refusal');
  expect(left.errors).toBeUndefined();
  await bill(shop, 'recordPayment', { invoiceId: id, amount: '40000', method: 'card' });
  expect(await open()).toEqual([]);
});

it('refuses free days and prices that make no sense, and a telling in the future', async () => {
  now = FRIDAY;
  const { shop, visit } = await sold();
  await release(shop, visit);
  for (const rule of [
    { freeDays: -1 },
    { freeDays: 4000 },
    { freeDays: 1, dayPrice: '0' },
    { freeDays: 1, dayPrice: '1.23456' },
  ])
    expect(await say(shop, 'setStorageRule', 'Shop', rule, 'manager')).toMatchObject({
      code: 'BAD_INPUT',
    });
  expect(
    await tell(shop, visit, { toldAt: new Date(now.getTime() + 3_600_000).toISOString() }),
  ).toMatchObject({ code: 'BAD_INPUT' });
  expect(await tell(shop, visit, { told: ' ' })).toMatchObject({ code: 'BAD_INPUT' });
  expect(await tell(shop, visit, {}, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  expect(
    await say(shop, 'chargeStorage', 'OrderCharge', { orderId: visit.order, days: 1 }),
  ).toMatchObject({ code: 'AGAINST_RULE' });
  expect(
    await shop.inside(async (tx) => [await tx.storageRule.count(), await tx.readyNotice.count()]),
  ).toEqual([0, 0]);
});
