/** Shop time, training and rework: clocked and learned from, billed at nothing; rework is linked to what it puts right. Common practice, no source. */
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, type Visit } from '../../support/visit.ts';
import { print, words } from '../paper/printed.ts';
import { bill, draft, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Done {
  id?: string;
  code?: string;
  message?: string;
  position?: number;
  jasc?: string;
  critical?: boolean;
}
const put = async (shop: TestShop, input: Record<string, unknown>, role: Role = 'front_desk') => {
  const { data, errors } = await shop.as<{ done: Done }>(
    role,
    'mutation($input: PutAtOurCostInput!) { done: putAtOurCost(input: $input) { ... on WorkOrder { id } ... on Refusal { code message } } }',
    { input: { reason: 'A leak at what we fitted.', ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
const add = async (shop: TestShop, input: Record<string, unknown>, role: Role = 'front_desk') => {
  const { data, errors } = await shop.as<{ done: Done }>(
    role,
    'mutation($input: AddWorkAtOurCostInput!) { done: addWorkAtOurCost(input: $input) { ... on WorkItem { id position jasc critical } ... on Refusal { code message } } }',
    { input: { reason: 'A leak at what we fitted.', ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
const costOf = async (shop: TestShop, { order }: Visit) => {
  const { data } = await shop.as<{ node: { costSoFar: string; beyondAuthority: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar beyondAuthority } } }',
    { id: order },
  );
  return data?.node;
};

/** Two jobs by time at 95.00: an hour each, of which the second is put at our cost. */
const two = async (shop: TestShop) =>
  makeSold(shop, {
    lines: [
      { title: 'Filter changed', likelyMinor: 9_500n },
      { title: 'Hose put right', likelyMinor: 9_500n },
    ],
    ceiling: 30_000n,
    items: [
      { line: 0, title: 'Filter changed', seconds: 3600 },
      { line: 1, title: 'Hose put right', seconds: 3600 },
    ],
  });

it('bills rework at nothing, says so to the owner, links it both ways, and counts its hours for the manager', async () => {
  const shop = await makeShop(api);
  const past = await makeVisit(shop, {
    items: [{ title: 'Hose fitted', jasc: '7310', critical: true }],
  });
  const visit = await two(shop);
  await issueTo(shop, visit.itemIds[1] ?? '', { unitPrice: '12.5' });
  expect(await costOf(shop, visit)).toMatchObject({ costSoFar: '21500' });

  const said = { itemId: visit.items[1], kind: 'rework', putsRightId: past.items[0] };
  expect(await put(shop, said)).toEqual({ id: visit.order });
  // Said twice it is said once.
  await put(shop, said);
  expect(await shop.inside((tx) => tx.atOurCost.count())).toBe(1);

  // One hour at 95.00; the other hour and its two gaskets are ours.
  expect(await costOf(shop, visit)).toEqual({ costSoFar: '9500', beyondAuthority: '0' });
  const made = await draft(shop, visit);
  expect(made).toMatchObject({ net: '9500', quoted: '19000' });
  expect(made.lines.map(({ title, unit, net }) => [title, unit, net])).toEqual([
    ['Filter changed', 'hour', '9500'],
    ['Hose put right: put right at our cost', 'at our cost', '0'],
  ]);
  expect(made.difference).toEqual([
    { kind: 'our_cost', title: 'Hose put right: put right at our cost', amount: '-9500' },
  ]);

  const linked = await shop.as<{ first: unknown; later: unknown }>(
    'front_desk',
    `query($first: ID!, $later: ID!) {
      first: node(id: $first) { ... on WorkItem { ourCost putRightBy { item { title ourCost } } } }
      later: node(id: $later) { ... on WorkItem { ourCost ourCostWords { putsRight { title order { number } } by { name } reason } order { pastWork { title } } } } }`,
    { first: past.items[0], later: visit.items[1] },
  );
  expect(linked.data).toEqual({
    first: {
      ourCost: null,
      putRightBy: [{ item: { title: 'Hose put right', ourCost: 'rework' } }],
    },
    later: {
      ourCost: 'rework',
      ourCostWords: [
        {
          putsRight: { title: 'Hose fitted', order: { number: 1 } },
          by: { name: 'Test front_desk' },
          reason: 'A leak at what we fitted.',
        },
      ],
      order: {
        pastWork: expect.arrayContaining([{ title: 'Hose fitted' }, { title: 'Filter changed' }]),
      },
    },
  });

  const hours = await shop.as(
    'manager',
    'query { all: ourCostHours(from: "2026-03-01", until: "2026-03-31") { kind seconds items } before: ourCostHours(from: "2026-01-01", until: "2026-03-13") { kind } }',
  );
  expect(hours.data).toEqual({ all: [{ kind: 'rework', seconds: 3600, items: 1 }], before: [] });
  const asked = await shop.as(
    'front_desk',
    'query { ourCostHours(from: "2026-03-01", until: "2026-03-31") { kind } }',
  );
  expect(asked.errors?.[0]?.extensions?.code).toBe('FORBIDDEN');

  await release(shop, visit);
  await draft(shop, visit);
  const issued = await bill(shop, 'issueInvoice', { invoiceId: made.id });
  expect(issued).toMatchObject({ state: 'issued', number: 1, net: '9500' });
  const paper = await print(api, shop, `invoice/${made.id}.pdf`, 'front_desk');
  expect(await words(paper.bytes)).toContain('put right at our cost');
  // Billed, it is credited before anybody changes their mind.
  expect(await put(shop, { ...said, kind: null, putsRightId: null })).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('billed already, with invoice 1'),
  });
});

it('cuts the hours at midnight of the shop, and a stretch that runs at now', async () => {
  const shop = await makeShop(api, { timeZone: 'America/New_York' });
  const visit = await makeVisit(shop, { items: [{ title: 'Sweep', seconds: 0 }] });
  await put(shop, { itemId: visit.items[0], kind: 'shop' });
  // 22:30 to 01:30 in New York, UTC −4 in July: an hour and a half on each side of midnight.
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId: visit.itemIds[0] ?? '',
        startedAt: new Date('2026-07-02T02:30:00Z'),
        endedAt: new Date('2026-07-02T05:30:00Z'),
      },
    }),
  );
  const { data } = await shop.as(
    'manager',
    'query { one: ourCostHours(from: "2026-07-01", until: "2026-07-01") { seconds } both: ourCostHours(from: "2026-07-01", until: "2026-07-02") { seconds } }',
  );
  expect(data).toEqual({ one: [{ seconds: 5400 }], both: [{ seconds: 10_800 }] });
});

it('leaves out a flat price whose every task is ours, and keeps it whole while one is billed', async () => {
  const shop = await makeShop(api);
  const task = (title: string) =>
    ({ title, pricing: 'fixed', likelyMinor: 0n, unitPrice: '0' }) as const;
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Inspection', pricing: 'fixed', likelyMinor: 124_000n, unitPrice: '1240' },
      task('Panels'),
      task('Filters'),
    ],
    ceiling: 200_000n,
    items: [
      { line: 1, title: 'Panels', seconds: 60 },
      { line: 2, title: 'Filters', seconds: 60 },
    ],
  });
  await put(shop, { itemId: visit.items[0], kind: 'training' });
  expect(await draft(shop, visit)).toMatchObject({ net: '124000' });
  expect(await costOf(shop, visit)).toMatchObject({ costSoFar: '124000' });
  await put(shop, { orderId: visit.order, kind: 'shop' });
  expect(await costOf(shop, visit)).toMatchObject({ costSoFar: '0' });
  expect(await draft(shop, visit)).toMatchObject({ code: 'AGAINST_RULE' });
  // Billed again, all of it.
  await put(shop, { orderId: visit.order });
  expect(await draft(shop, visit)).toMatchObject({ net: '124000' });
});

it('opens training and rework on an order without anybody’s yes; the invoice says nothing of training', async () => {
  const shop = await makeShop(api);
  const past = await makeVisit(shop, {
    items: [{ title: 'Hose fitted', jasc: '7310', critical: true }],
  });
  const visit = await two(shop);
  const training = await add(shop, {
    ...{ orderId: visit.order, kind: 'training', title: 'Safety wire practised', jasc: '1400' },
  });
  expect(training).toMatchObject({ position: 3, jasc: '1400', critical: false });
  const rework = await add(shop, {
    ...{ orderId: visit.order, kind: 'rework', title: 'Hose again', putsRightId: past.items[0] },
  });
  // As the first job: its code, and a second pair of eyes.
  expect(rework).toMatchObject({ position: 4, jasc: '7310', critical: true });
  for (const id of [training.id, rework.id])
    await shop.inside((tx) =>
      tx.stretch.create({
        data: {
          personId: shop.people.mechanic.id,
          itemId:
            Buffer.from(id ?? '', 'base64')
              .toString()
              .split(':')[1] ?? '',
          startedAt: new Date(id === training.id ? '2026-03-15T09:00:00Z' : '2026-03-16T09:00:00Z'),
          endedAt: new Date(id === training.id ? '2026-03-15T10:00:00Z' : '2026-03-16T10:00:00Z'),
        },
      }),
    );
  const made = await draft(shop, visit);
  expect(made.net).toBe('19000');
  expect(made.lines.map(({ title }) => title)).toEqual([
    'Filter changed',
    'Hose put right',
    'Hose again: put right at our cost',
  ]);
  const card = await print(api, shop, `job-card/${rework.id}.pdf`, 'mechanic');
  expect(await words(card.bytes)).toContain('puts right “Hose fitted” of order 1');
});

it('refuses rework of nothing, of itself, of another aircraft, of what was never begun, and whom it does not concern', async () => {
  const shop = await makeShop(api);
  const visit = await two(shop);
  const item = visit.items[0];
  const said = (over: Record<string, unknown>) =>
    put(shop, { itemId: item, kind: 'rework', ...over });
  expect(await said({})).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('without what it puts right'),
  });
  expect(await said({ putsRightId: item })).toMatchObject({
    message: expect.stringContaining('cannot put right itself'),
  });
  expect(await said({ kind: 'shop', putsRightId: visit.items[1] })).toMatchObject({
    message: expect.stringContaining('only rework puts something right'),
  });
  expect(await said({ putsRightId: globalId('WorkItem', shop.aircraftId) })).toMatchObject({
    code: 'NOT_FOUND',
  });
  const other = await shop.inside((tx) =>
    tx.aircraft.create({
      data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-OTHER', serial: '2' },
    }),
  );
  const elsewhere = await makeVisit(shop, { aircraftId: other.id, items: [{}] });
  expect(await said({ putsRightId: elsewhere.items[0] })).toMatchObject({
    message: expect.stringContaining('was done on QQ-OTHER'),
  });
  const open = await makeVisit(shop, { items: [{ title: 'Never begun', workDone: null }] });
  expect(await said({ putsRightId: open.items[0] })).toMatchObject({
    message: expect.stringContaining('was never begun'),
  });
  expect(await put(shop, { kind: 'shop' })).toMatchObject({
    message: 'Needed is one item or one order, and not both.',
  });
  expect(await put(shop, { itemId: item, kind: 'shop', reason: ' x ' })).toMatchObject({
    code: 'BAD_INPUT',
  });
  expect(await put(shop, { itemId: item, kind: 'shop' }, 'mechanic')).toMatchObject({
    code: 'FORBIDDEN',
  });
  const asked = { orderId: visit.order, kind: 'shop', title: 'Sweep' };
  expect(await add(shop, { ...asked, jasc: '12' })).toMatchObject({
    message: expect.stringContaining('four digits'),
  });
  expect(await add(shop, { ...asked, jasc: '1200', title: '  ' })).toMatchObject({
    code: 'BAD_INPUT',
  });
  await release(shop, visit);
  expect(await add(shop, { ...asked, jasc: '1200' })).toMatchObject({
    message: expect.stringContaining('is released'),
  });
  expect(await shop.inside((tx) => tx.atOurCost.count())).toBe(0);
});
