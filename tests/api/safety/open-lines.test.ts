import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { entryDraft, makeVisit, signEntry, type Visit } from '../../support/visit.ts';
import { expectDone, expectRefused, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const note = (shop: TestShop, orderId: string, over = {}, role: Role = 'mechanic') =>
  mutate(
    shop,
    role,
    'noteOpenLine',
    { orderId, kind: 'opened', words: 'Belly panel 2', clientEventId: randomUUID(), ...over },
    'state kind words place by { name } item { id }',
  );
const mark = (shop: TestShop, lineId: string, kind: string, over = {}, role: Role = 'mechanic') =>
  mutate(
    shop,
    role,
    'markOpenLine',
    { lineId, kind, clientEventId: randomUUID(), ...over },
    'state events { kind note by { name } }',
  );
const count = (
  shop: TestShop,
  orderId: string,
  kind: string,
  lines: { name: string; number: number }[],
  over = {},
  role: Role = 'mechanic',
) =>
  mutate(
    shop,
    role,
    'countTools',
    { orderId, kind, lines, clientEventId: randomUUID(), ...over },
    'kind lines { name number }',
  );
const asked = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{
    node: {
      unclosed: string[];
      toolCounts: {
        itemId: string | null;
        agrees: boolean;
        names: { name: string; out: number; back: number | null }[];
      }[];
    };
  }>(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { unclosed toolCounts { itemId agrees names { name out back } } } } }',
    { id },
  );
  if (!data) throw new Error('no order');
  return data.node;
};
const release = async (shop: TestShop, { order }: Visit) => {
  const { data } = await shop.as<{ releaseAircraft: { message?: string; state?: string } }>(
    'inspector',
    'mutation($input: ReleaseAircraftInput!) { releaseAircraft(input: $input) { ... on WorkOrder { state } ... on Refusal { message } } }',
    { input: { orderId: order, outcome: 'airworthy' } },
  );
  return data?.releaseAircraft;
};

describe('what is open', () => {
  it('is noted with who and where, and closed by another person with one mutation', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const line = expectDone(
      await note(shop, order.id, { place: 'left of keel', itemId: order.items[0]?.id }),
    );
    expect(line).toMatchObject({
      state: 'open',
      kind: 'opened',
      place: 'left of keel',
      by: { name: 'Test mechanic' },
      item: { id: order.items[0]?.id },
    });
    expect((await asked(shop, order.id)).unclosed).toEqual([
      '“Belly panel 2” (left of keel), opened by Test mechanic, is not closed',
    ]);
    expect(await mark(shop, line.id ?? '', 'closed', {}, 'inspector')).toMatchObject({
      state: 'closed',
      events: [{ kind: 'closed', by: { name: 'Test inspector' } }],
    });
    expect((await asked(shop, order.id)).unclosed).toEqual([]);
    // Touched twice, or by two people at once: still closed once.
    expect((await mark(shop, line.id ?? '', 'closed')).events).toHaveLength(1);
    expect(await mark(shop, line.id ?? '', 'reopened')).toMatchObject({ state: 'open' });
    expect((await asked(shop, order.id)).unclosed).toHaveLength(1);
  });

  it('is noted once however often its device sends it, and never under the id of somebody else', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const clientEventId = randomUUID();
    const [one, other] = await Promise.all([
      note(shop, order.id, { clientEventId }),
      note(shop, order.id, { clientEventId }),
    ]);
    expect(expectDone(one).id).toBe(expectDone(other).id);
    expect(await shop.inside((tx) => tx.openLine.count())).toBe(1);
    expectRefused(
      await note(shop, order.id, { clientEventId }, 'inspector'),
      'CONFLICT',
      /somebody else/,
    );
    const marked = randomUUID();
    for (let twice = 0; twice < 2; twice += 1)
      expect(
        (await mark(shop, one.id ?? '', 'closed', { clientEventId: marked })).events,
      ).toHaveLength(1);
  });

  it('is closed, opened again and struck out by the id of its device, before that has heard of another', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const lineClientEventId = randomUUID();
    const byDevice = (kind: string, over = {}, role: Role = 'mechanic') =>
      mutate(
        shop,
        role,
        'markOpenLine',
        { lineClientEventId, kind, clientEventId: randomUUID(), ...over },
        'state clientEventId events { kind clientEventId }',
      );
    // Its opening was refused, or thrown away on the device: nothing else is closed instead.
    expectRefused(
      await byDevice('closed'),
      'NOT_FOUND',
      /noted on this device and did not come to the shop: note it again/,
    );
    const { id } = expectDone(await note(shop, order.id, { clientEventId: lineClientEventId }));
    const clientEventId = randomUUID();
    const [one, two] = await Promise.all([
      byDevice('closed', { clientEventId }),
      byDevice('closed', { clientEventId }),
    ]);
    for (const said of [one, two])
      expect(said).toMatchObject({
        id,
        state: 'closed',
        clientEventId: lineClientEventId,
        events: [{ kind: 'closed', clientEventId }],
      });
    expect(await byDevice('reopened', {}, 'inspector')).toMatchObject({ id, state: 'open' });
    expectRefused(
      await byDevice('closed', { lineId: id }),
      'BAD_INPUT',
      /Both of lineId and lineClientEventId are given: needed is one/,
    );
    expectRefused(
      await byDevice('closed', { lineClientEventId: null }),
      'BAD_INPUT',
      /Neither of lineId and lineClientEventId is given/,
    );
    expectRefused(
      await byDevice('closed', { lineClientEventId: 'panel' }),
      'BAD_INPUT',
      /lineClientEventId is "panel": needed is a UUID/,
    );
    const other = await makeShop(api);
    expectRefused(
      await mutate(other, 'mechanic', 'markOpenLine', {
        ...{ lineClientEventId, kind: 'closed', clientEventId: randomUUID() },
      }),
      'NOT_FOUND',
      /did not come to the shop/,
    );
  });

  it('is struck out with a reason alone', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const { id = '' } = await note(shop, order.id);
    expectRefused(await mark(shop, id, 'struck_out'), 'BAD_INPUT', /note has 0 characters.*3/);
    expect(
      await mark(shop, id, 'struck_out', { note: 'Other side; this one was never off.' }),
    ).toMatchObject({ state: 'struck_out' });
    expect((await asked(shop, order.id)).unclosed).toEqual([]);
    expectRefused(await mark(shop, id, 'closed'), 'CONFLICT', /is struck out: needed.*open/);
  });

  it('refuses an item of another order, a closed shop door, a wrong role and another shop', async () => {
    const shop = await makeShop(api);
    const [order, other] = [await makeOrder(shop), await makeOrder(shop, { arrived: false })];
    expectRefused(
      await note(shop, order.id, { itemId: other.items[0]?.id }),
      'BAD_INPUT',
      /of another order/,
    );
    expectRefused(await note(shop, other.id), 'AGAINST_RULE', /has not arrived/);
    expectRefused(await note(shop, order.id, {}, 'front_desk'), 'FORBIDDEN', /a mechanic/);
    expectRefused(await note(shop, order.id, { words: ' ' }), 'BAD_INPUT', /words has 0/);
    expectRefused(
      await note(shop, order.id, { clientEventId: 'nonsense' }),
      'BAD_INPUT',
      /needed is a UUID/,
    );
    expectRefused(await note(await makeShop(api), order.id), 'NOT_FOUND', /no such order/);
    expectRefused(
      await mark(shop, globalId('OpenLine', randomUUID()), 'closed'),
      'NOT_FOUND',
      /no such open line/,
    );
    await shop.inside((tx) =>
      tx.orderEvent.create({
        data: { orderId: order.orderId, kind: 'released', outcome: 'airworthy' },
      }),
    );
    expectRefused(await note(shop, order.id), 'AGAINST_RULE', /was released/);
  });
});

describe('tools and rags', () => {
  it('agree when each name comes back as often as it went out', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    expectDone(
      await count(shop, order.id, 'out', [
        { name: 'Rags', number: 6 },
        { name: 'Torque wrench TW-2', number: 1 },
      ]),
    );
    expectDone(await count(shop, order.id, 'out', [{ name: 'rags', number: 2 }]));
    expect((await asked(shop, order.id)).toolCounts).toEqual([
      {
        itemId: null,
        agrees: false,
        names: [
          { name: 'Rags', out: 8, back: null },
          { name: 'Torque wrench TW-2', out: 1, back: null },
        ],
      },
    ]);
    expectDone(
      await count(shop, order.id, 'back', [
        { name: 'Rags', number: 7 },
        { name: 'Torque wrench TW-2', number: 1 },
        { name: 'Scriber', number: 1 },
      ]),
    );
    const short = await asked(shop, order.id);
    expect(short.toolCounts[0]).toMatchObject({ agrees: false });
    expect(short.unclosed).toEqual([
      'the count of tools and rags for the order does not agree (last counted by Test mechanic): Rags: 8 out, 7 back; Scriber: 0 out, 1 back',
    ]);
    // A count is of the whole: the eighth is found, the scriber was another job's.
    expectDone(
      await count(shop, order.id, 'back', [
        { name: 'Rags', number: 8 },
        { name: 'Torque wrench TW-2', number: 1 },
      ]),
    );
    expect(await asked(shop, order.id)).toEqual({
      unclosed: [],
      toolCounts: [{ itemId: null, agrees: true, names: [] }],
    });
  });

  it('are counted for an item apart from its order, and refuse what is no count', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    const itemId = order.items[0]?.id;
    expectRefused(
      await count(shop, order.id, 'back', [{ name: 'Rags', number: 1 }]),
      'CONFLICT',
      /count out first/,
    );
    expectRefused(await count(shop, order.id, 'out', []), 'BAD_INPUT', /0 entries: needed are 1/);
    expectRefused(
      await count(shop, order.id, 'out', [{ name: 'Rags', number: 0 }]),
      'BAD_INPUT',
      /“Rags” is 0: needed is 1 to 999/,
    );
    expectRefused(
      await count(shop, order.id, 'out', [
        { name: 'Rags', number: 1 },
        { name: ' rags ', number: 2 },
      ]),
      'BAD_INPUT',
      /stands twice/,
    );
    expectDone(await count(shop, order.id, 'out', [{ name: 'Rags', number: 3 }], { itemId }));
    expect((await asked(shop, order.id)).unclosed).toEqual([
      'the count of tools and rags for item 1, “Test item 1”, does not agree (last counted by Test mechanic): Rags: 3 out, not counted back',
    ]);
    expectRefused(
      await count(shop, order.id, 'back', [{ name: 'Rags', number: 3 }]),
      'CONFLICT',
      /count out first/,
    );
    expectDone(await count(shop, order.id, 'back', [{ name: 'Rags', number: 3 }], { itemId }));
    expect((await asked(shop, order.id)).unclosed).toEqual([]);
  });

  it('what stays missing is accounted for in words, by an inspector or the manager', async () => {
    const shop = await makeShop(api);
    const order = await makeOrder(shop);
    await count(shop, order.id, 'out', [{ name: 'Rags', number: 3 }]);
    await count(shop, order.id, 'back', [{ name: 'Rags', number: 2 }]);
    const words = { note: 'Torn and thrown away; found in the bin by the door.' };
    expectRefused(
      await count(shop, order.id, 'accounted_for', [], words),
      'FORBIDDEN',
      /an inspector or the manager/,
    );
    expectRefused(
      await count(shop, order.id, 'accounted_for', [], { note: 'gone' }, 'inspector'),
      'BAD_INPUT',
      /note has 4/,
    );
    expectDone(await count(shop, order.id, 'accounted_for', [], words, 'inspector'));
    expect((await asked(shop, order.id)).unclosed).toEqual([]);
  });
});

it('nothing is signed or released while a panel is open, a part is off, or a count does not agree', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { inspection: null });
  const wanted = { orderId: visit.order, bookId: globalId('RecordBook', shop.bookId) };
  const text = (await entryDraft(shop, wanted)).text ?? '';
  const panel = await note(shop, visit.order);
  const part = await note(shop, visit.order, { kind: 'removed', words: 'Left magneto' });
  await count(shop, visit.order, 'out', [{ name: 'Rags', number: 6 }]);
  const missing = (await entryDraft(shop, wanted)).missing;
  expect(missing.map(({ paragraph, what }) => `${paragraph}: ${what}`)).toEqual([
    'shop rule: a panel that is closed again: “Belly panel 2”, opened by Test mechanic',
    'shop rule: a part that is back on: “Left magneto”, removed by Test mechanic',
    'shop rule: a count of tools and rags that agrees: the order, Rags: 6 out, not counted back',
  ]);
  expect((await signEntry(shop, wanted, { text })).message).toMatch(
    /^The entry cannot be signed: it lacks a panel that is closed again: “Belly panel 2”, opened by Test mechanic \(shop rule\)\. Close it/,
  );
  await mark(shop, panel.id ?? '', 'closed');
  expect((await signEntry(shop, wanted, { text })).message).toMatch(/“Left magneto”/);
  await mark(shop, part.id ?? '', 'closed');
  await count(shop, visit.order, 'back', [{ name: 'Rags', number: 5 }]);
  expect((await signEntry(shop, wanted, { text })).message).toMatch(/Rags: 6 out, 5 back/);
  await count(shop, visit.order, 'back', [{ name: 'Rags', number: 6 }]);
  expect(await signEntry(shop, wanted, { text })).toMatchObject({ id: expect.any(String) });
  // Opened again after the signature: the release sees it.
  await mark(shop, panel.id ?? '', 'reopened');
  expect((await release(shop, visit))?.message).toMatch(
    /cannot be released: “Belly panel 2”, opened by Test mechanic, is not closed\.$/,
  );
  await mark(shop, panel.id ?? '', 'closed');
  expect(await release(shop, visit)).toEqual({ state: 'released' });
});
