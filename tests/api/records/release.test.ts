import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry, type Visit } from '../../support/visit.ts';
import { bill, draft, makeSold } from '../books/billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Released {
  code?: string;
  message?: string;
  state?: string;
  outcome?: string;
  unpaid?: string;
}
type Doing = 'releaseAircraft' | 'handBack' | 'closeOrder';

async function act(
  shop: TestShop,
  name: Doing,
  input: Record<string, unknown>,
  role: 'inspector' | 'front_desk' | 'mechanic' | 'manager' = 'inspector',
): Promise<Released> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Released }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on WorkOrder { state outcome unpaid } ... on Refusal { code message } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}
const release = (shop: TestShop, { order }: Visit, outcome = 'airworthy') =>
  act(shop, 'releaseAircraft', { orderId: order, outcome });
const airframe = (shop: TestShop, { order }: Visit) => ({
  orderId: order,
  bookId: globalId('RecordBook', shop.bookId),
  outcome: 'airworthy',
});

it('is refused until the entry is signed (14 CFR 43.5), and then releases once', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop);
  expect(await release(shop, visit)).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/airframe book “Airframe” is not signed \(14 CFR 43\.5\)/),
  });
  await signEntry(shop, airframe(shop, visit));
  expect(await release(shop, visit, 'not_airworthy_list_given')).toMatchObject({
    code: 'AGAINST_RULE',
  });
  expect(await release(shop, visit)).toEqual({
    state: 'released',
    outcome: 'airworthy',
    unpaid: '0',
  });
  expect(await release(shop, visit)).toEqual({
    state: 'released',
    outcome: 'airworthy',
    unpaid: '0',
  });
  expect(await release(shop, visit, 'not_airworthy_list_given')).toMatchObject({
    code: 'CONFLICT',
  });
  expect(await shop.inside((tx) => tx.orderEvent.count({ where: { kind: 'released' } }))).toBe(1);
});

it('wants the engine and rotor books where work of their chapters was done, and no other', async () => {
  const shop = await makeShop(api);
  const ids = await shop.inside(async (tx) => {
    const made: Record<string, string> = {};
    for (const kind of ['engine', 'rotor', 'propeller'] as const)
      made[kind] = (
        await tx.recordBook.create({ data: { aircraftId: shop.aircraftId, kind, title: kind } })
      ).id;
    return made;
  });
  const visit = await makeVisit(shop, {
    items: [{}, { jasc: '7810', title: 'Exhaust' }, { jasc: '6210', title: 'Blades' }],
  });
  await signEntry(shop, airframe(shop, visit));
  expect((await release(shop, visit)).message).toMatch(/engine book[\s\S]*rotor book/);
  const engine = await signEntry(shop, {
    ...airframe(shop, visit),
    bookId: globalId('RecordBook', ids.engine ?? ''),
  });
  expect(engine.text).toContain('Exhaust');
  expect(engine.text).not.toContain('Blades');
  expect(engine.text).toContain('mechanic certificate with powerplant rating');
  expect((await release(shop, visit)).message).toMatch(/rotor book/);
  await signEntry(shop, {
    ...airframe(shop, visit),
    bookId: globalId('RecordBook', ids.rotor ?? ''),
  });
  expect((await release(shop, visit)).state).toBe('released');
});

it("on a twin, work on one engine is left out of the other engine's book, and must stand in one of them", async () => {
  const shop = await makeShop(api);
  const [left, right] = await shop.inside(async (tx) => [
    (
      await tx.recordBook.create({
        data: { aircraftId: shop.aircraftId, kind: 'engine', title: 'Engine, left' },
      })
    ).id,
    (
      await tx.recordBook.create({
        data: { aircraftId: shop.aircraftId, kind: 'engine', title: 'Engine, right' },
      })
    ).id,
  ]);
  const visit = await makeVisit(shop, {
    inspection: null,
    items: [
      { jasc: '7310', title: 'Left fuel pump' },
      { jasc: '7400', title: 'Right magneto' },
    ],
  });
  const book = (id: string | undefined) => ({
    orderId: visit.order,
    bookId: globalId('RecordBook', id ?? ''),
  });
  const one = await signEntry(shop, { ...book(left), leaveOut: [visit.items[1] ?? ''] });
  expect(one.text).not.toContain('Right magneto');
  const other = await signEntry(shop, { ...book(right), leaveOut: [visit.items[0] ?? ''] });
  expect(other.text).not.toContain('Left fuel pump');
  await expect(
    signEntry(shop, { ...airframe(shop, visit), leaveOut: [visit.items[0] ?? ''] }),
  ).resolves.toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('one airframe book'),
  });
});

it("work on an engine alone needs that engine's entry and no other", async () => {
  const shop = await makeShop(api);
  const books = await shop.inside(async (tx) => [
    (
      await tx.recordBook.create({
        data: { aircraftId: shop.aircraftId, kind: 'engine', title: 'Engine, left' },
      })
    ).id,
    (
      await tx.recordBook.create({
        data: { aircraftId: shop.aircraftId, kind: 'engine', title: 'Engine, right' },
      })
    ).id,
  ]);
  const visit = await makeVisit(shop, { inspection: null, items: [{ jasc: '7310' }] });
  expect((await release(shop, visit)).message).toBe(
    `${(await shop.inside((tx) => tx.aircraft.findFirstOrThrow())).registration} cannot be released: the entry in the engine book “Engine, left” or “Engine, right” is not signed (14 CFR 43.5).`,
  );
  await signEntry(shop, { orderId: visit.order, bookId: globalId('RecordBook', books[0] ?? '') });
  expect((await release(shop, visit)).state).toBe('released');
});

it('goes out unairworthy with its list, and never as airworthy while an unairworthy finding is open', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { findings: [{ title: 'Crack', class: 'unairworthy' }] });
  await signEntry(shop, { ...airframe(shop, visit), outcome: 'not_airworthy_list_given' });
  expect((await release(shop, visit)).message).toMatch(
    /says not airworthy, list given|is unairworthy and not corrected/,
  );
  expect(await release(shop, visit, 'not_airworthy_list_given')).toEqual({
    state: 'released',
    outcome: 'not_airworthy_list_given',
    unpaid: '0',
  });
});

it("every entry of an inspection speaks of the aircraft: the engine's does not say airworthy while the airframe is not", async () => {
  const shop = await makeShop(api);
  const { id } = await shop.inside((tx) =>
    tx.recordBook.create({
      data: { aircraftId: shop.aircraftId, kind: 'engine', title: 'Engine' },
    }),
  );
  const visit = await makeVisit(shop, {
    items: [{}, { jasc: '7810' }],
    findings: [{ title: 'Corroded skid', class: 'unairworthy' }],
  });
  const engine = { ...airframe(shop, visit), bookId: globalId('RecordBook', id) };
  expect((await signEntry(shop, engine)).message).toMatch(/found unairworthy: Corroded skid/);
  const signed = await signEntry(shop, { ...engine, outcome: 'not_airworthy_list_given' });
  expect(signed.text).toMatch(/1\. Corroded skid \(finding 1\) \(unairworthy\)/);
});

it('is refused with an open item, a running clock, before arrival, in the wrong role and for another shop', async () => {
  const shop = await makeShop(api);
  const open = await makeVisit(shop, { items: [{ workDone: null }] });
  expect((await release(shop, open)).message).toMatch(
    /item 1, “Item 1”, is neither inspected nor put off/,
  );
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId: open.itemIds[0] ?? '',
        startedAt: new Date('2026-03-15T08:00:00Z'),
      },
    }),
  );
  expect((await release(shop, open)).message).toMatch(/the clock of Test mechanic runs/);
  const planned = await makeVisit(shop, { arrived: false });
  expect(await release(shop, planned)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('planned'),
  });
  expect(
    (await act(shop, 'releaseAircraft', { orderId: open.order, outcome: 'airworthy' }, 'manager'))
      .code,
  ).toBe('FORBIDDEN');
  const other = await makeShop(api);
  expect((await release(other, open)).code).toBe('NOT_FOUND');
});

it('says what is unpaid when it is closed, and is closed all the same', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [{ title: 'Inspection', pricing: 'fixed', likelyMinor: 124_000n, unitPrice: '1240' }],
    ceiling: 200_000n,
    items: [{ line: 0 }],
  });
  await signEntry(shop, airframe(shop, visit));
  await release(shop, visit);
  const close = () => act(shop, 'closeOrder', { orderId: visit.order }, 'front_desk');
  const { id: invoiceId } = await draft(shop, visit);
  expect(await act(shop, 'handBack', { orderId: visit.order, returned: [] })).toMatchObject({
    unpaid: '0',
  });
  await bill(shop, 'issueInvoice', { invoiceId });
  expect(await close()).toMatchObject({ state: 'closed', unpaid: '124000' });
  await bill(shop, 'recordPayment', { invoiceId, amount: '100000', method: 'card' });
  expect((await close()).unpaid).toBe('24000');
  // The credit note takes back 1,240.00 of which 1,000.00 was paid.
  await bill(shop, 'creditInvoice', { invoiceId });
  expect((await close()).unpaid).toBe('-100000');
});

it('is closed when everything is handed back; what is owed keeps nothing here', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { received: ['two keys', 'airframe book'] });
  expect((await act(shop, 'closeOrder', { orderId: visit.order }, 'front_desk')).message).toMatch(
    /needed is one that is released/,
  );
  await signEntry(shop, airframe(shop, visit));
  await release(shop, visit);
  await act(shop, 'handBack', { orderId: visit.order, returned: [visit.things[0]] }, 'front_desk');
  expect(await act(shop, 'closeOrder', { orderId: visit.order }, 'front_desk')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/“airframe book” came with the aircraft and is not handed back/),
  });
  await act(shop, 'handBack', { orderId: visit.order, returned: visit.things }, 'front_desk');
  const given = await shop.inside((tx) =>
    tx.receivedThing.findMany({ where: { returnedAt: null } }),
  );
  expect(given).toEqual([]);
  expect((await act(shop, 'closeOrder', { orderId: visit.order }, 'mechanic')).code).toBe(
    'FORBIDDEN',
  );
  expect((await act(shop, 'closeOrder', { orderId: visit.order }, 'front_desk')).state).toBe(
    'closed',
  );
  expect((await act(shop, 'closeOrder', { orderId: visit.order }, 'front_desk')).state).toBe(
    'closed',
  );
  const other = await makeVisit(shop, { received: ['life jackets'] });
  expect(
    (await act(shop, 'handBack', { orderId: visit.order, returned: other.things }, 'front_desk'))
      .code,
  ).toBe('NOT_FOUND');
});
