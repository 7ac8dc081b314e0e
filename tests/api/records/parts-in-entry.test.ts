import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { entryDraft, makeVisit, signEntry, VISIT_DAY, type Visit } from '../../support/visit.ts';

/** That an entry says which parts went on and came off: 14 CFR 43.9(a)(1), 43.10(c), 91.417(a)(2). Figures worked by hand. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => new Date(VISIT_DAY.getTime() + 4 * 3_600_000) });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id?: string;
  code?: string;
  message?: string;
  stays?: { id: string; fittedInWork: string | null; removedInWork: string | null }[];
}
async function does(shop: TestShop, mutation: string, input: Record<string, unknown>) {
  const type = mutation.charAt(0).toUpperCase() + mutation.slice(1);
  const { data, errors } = await shop.as<Record<string, Said>>(
    'mechanic',
    `mutation($input: ${type}Input!) { ${mutation}(input: $input) { ... on Component { id stays { id fittedInWork removedInWork } } ... on Refusal { code message } } }`,
    { input },
  );
  return data?.[mutation] ?? { message: JSON.stringify(errors) };
}

/** An aircraft at 2463.0 h with a life-limited hub of 150.0 h fitted at 2400.0 h, here for its work; both counted where it is said. */
async function visitWithHub(cycles?: { own: number; aircraft: number }) {
  const shop = await makeShop(api);
  const hub = await does(shop, 'addComponent', {
    ...{ kind: 'rotor', title: 'Rotor hub', partNumber: 'H-1', serial: '77' },
    ...{ tisHundredths: 15_000, lifeLimitHundredths: 22_000 },
    ...(cycles && { counts: { cycles: cycles.own } }),
  });
  await shop.inside((tx) =>
    tx.meterReading.create({
      data: {
        ...{ aircraftId: shop.aircraftId, meter: 'tachometer', readingHundredths: 240_000 },
        ...{ tisHundredths: 240_000, readAt: new Date('2026-01-02T08:00:00Z') },
        ...(cycles && { cycles: 1200 }),
      },
    }),
  );
  const fitted = await does(shop, 'fitComponent', {
    ...{ componentId: hub.id, aircraftId: globalId('Aircraft', shop.aircraftId) },
    ...{ position: 'main', on: '2026-01-02', tisHundredths: 240_000 },
    ...(cycles && { counts: { cycles: cycles.aircraft } }),
  });
  expect(fitted.message).toBeUndefined();
  const visit = await makeVisit(shop, { inspection: null, items: [{ title: 'Hub' }] });
  const asked = { orderId: visit.order, bookId: globalId('RecordBook', shop.bookId) };
  const takeOff = (over: Record<string, unknown> = {}) =>
    does(shop, 'removeComponent', { componentId: hub.id, words: 'Scored', ...over });
  return { shop, visit, asked, hub: hub.id ?? '', takeOff };
}
const lines = async (shop: TestShop, asked: { orderId: string; bookId: string }) => {
  const { text, missing } = await entryDraft(shop, asked);
  return { parts: text?.split('\n').filter((line) => line.startsWith('Part ')), missing };
};
const itemOf = ({ items }: Visit) => items[0] ?? '';

it('taking off a life-limited part asks what becomes of it, and changes nothing until it is said', async () => {
  const { shop, takeOff } = await visitWithHub();
  expect(await takeOff()).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(/what becomes of it was not said: .*14 CFR 43\.10\(c\)/),
  });
  expect(await takeOff({ disposition: 'other' })).toMatchObject({ code: 'BAD_INPUT' });
  const { removedAt } = await shop.inside((tx) => tx.componentFitting.findFirstOrThrow());
  expect(removedAt).toBeNull();
});

it('an entry names what came off with its life status then, and what became of it', async () => {
  const { shop, visit, asked, takeOff } = await visitWithHub();
  await takeOff({ itemId: itemOf(visit), disposition: 'tag', dispositionWords: 'Shelf Q' });
  // 150.0 h + 2463.0 h − 2400.0 h = 213.0 h of 220.0 h.
  expect(await lines(shop, asked)).toEqual({
    parts: [
      'Part off: Rotor hub, part H-1, serial 77 (main); at 2463.00 h of the aircraft; 213.00 h since new; life 220.00 h, 7.00 h left; kept with a tag or record of these attached to it (14 CFR 43.10(c)(2)): Shelf Q.',
    ],
    missing: [],
  });
  const { text } = await signEntry(shop, { ...asked, outcome: 'airworthy' });
  expect(text).toContain('Part off: Rotor hub');
});

it('a life in cycles stands beside the hours: its own count then, and asked for where the aircraft was not counted', async () => {
  const cycled = async (cycles?: { own: number; aircraft: number; removed: number }) => {
    const { shop, visit, asked, hub, takeOff } = await visitWithHub(cycles);
    const limit = {
      ...{ aircraftId: globalId('Aircraft', shop.aircraftId), componentId: hub, kind: 'limit' },
      ...{ title: 'Life', source: 'Invented', rule: 'life_limit', limitCounts: { cycles: 600 } },
    };
    const { data } = await shop.as<{ addDueItem: Said }>(
      'inspector',
      'mutation($input: AddDueItemInput!) { addDueItem(input: $input) { ... on DueItem { id } ... on Refusal { message } } }',
      { input: limit },
    );
    expect(data?.addDueItem.message).toBeUndefined();
    const counts = cycles && { cycles: cycles.removed };
    await takeOff({ itemId: itemOf(visit), disposition: 'tag', counts });
    return lines(shop, asked);
  };
  // 400 + 1,150 − 1,000 = 550 of 600 cycles.
  const counted = await cycled({ own: 400, aircraft: 1000, removed: 1150 });
  expect(counted.parts?.[0]).toContain('; 550 cycles since new, life 600, 50 left;');
  expect(counted.missing).toEqual([]);
  expect((await cycled()).missing).toMatchObject([
    { paragraph: '14 CFR 43.10(c)', what: expect.stringMatching(/^the cycles of Rotor hub/) },
  ]);
});

it('is not signed while a part that moved here names no work; the part’s sheet mends it', async () => {
  const { shop, visit, asked, hub, takeOff } = await visitWithHub();
  const off = await takeOff({ disposition: 'segregation', dispositionWords: 'Cage' });
  const { missing } = await lines(shop, asked);
  expect(missing).toEqual([
    {
      paragraph: '14 CFR 43.9(a)(1)',
      what: 'the work in whose course Rotor hub, serial 77 (main) was taken off',
      remedy: expect.stringContaining('on the sheet of the part'),
    },
  ]);
  expect((await signEntry(shop, { ...asked, outcome: 'airworthy' })).code).toBe('AGAINST_RULE');
  const named = await does(shop, 'handleComponent', {
    ...{ fittingId: off.stays?.[0]?.id, side: 'off', itemId: itemOf(visit) },
    ...{ disposition: 'mutilation', dispositionWords: 'Sawn through' },
  });
  expect(named).toMatchObject({
    id: hub,
    stays: [{ removedInWork: expect.stringMatching(/Hub$/) }],
  });
  expect((await lines(shop, asked)).parts?.[0]).toMatch(/43\.10\(c\)\(6\)\): Sawn through\.$/);
});

it('what was to go back keeps the entry open until it is back at the same time in service', async () => {
  const { shop, visit, asked, hub, takeOff } = await visitWithHub();
  await takeOff({ itemId: itemOf(visit), disposition: 'goes_back' });
  expect((await lines(shop, asked)).missing.map(({ paragraph }) => paragraph)).toEqual([
    '14 CFR 43.10(b)',
  ]);
  await does(shop, 'fitComponent', {
    ...{ componentId: hub, aircraftId: globalId('Aircraft', shop.aircraftId), position: 'main' },
    itemId: itemOf(visit),
  });
  const { parts, missing } = await lines(shop, asked);
  expect(missing).toEqual([]);
  expect(parts).toEqual([
    expect.stringMatching(/^Part off: Rotor hub.*43\.10\(b\)\)\.$/),
    expect.stringMatching(/^Part on: Rotor hub.*213\.00 h since new; life 220\.00 h/),
  ]);
});

it('what the stores issued stands there by lot and release certificate, less what came back', async () => {
  const { shop, visit, asked } = await visitWithHub();
  await shop.inside(async (tx) => {
    const part = await tx.part.create({
      data: { shopId: shop.shopId, number: 'G-1', title: 'Gasket', unitPrice: '4' },
    });
    const lots: { id: string }[] = [];
    for (const over of [{ tag: 'TN-204' }, { tag: '', batch: 'B8' }])
      lots.push(
        await tx.lot.create({
          data: {
            ...{ partId: part.id, supplier: 'Test', batch: 'B7', unitCost: '2' },
            receivedOn: new Date('2026-01-01'),
            ...over,
          },
        }),
      );
    const itemId = visit.itemIds[0] ?? '';
    const move = (
      index: number,
      kind: 'receive' | 'issue' | 'return',
      quantity: string,
      over = {},
    ) =>
      tx.stockMovement.create({
        data: {
          ...{ lotId: lots[index]?.id ?? '', kind, quantity, byId: shop.people.mechanic.id },
          ...(kind !== 'receive' && { itemId }),
          ...over,
        },
      });
    await move(0, 'receive', '10');
    await move(1, 'receive', '10');
    await move(0, 'issue', '-3');
    await move(0, 'return', '1');
    await move(1, 'issue', '-1', { despite: ['no_trace'], reason: 'Made in the shop.' });
  });
  expect((await lines(shop, asked)).parts).toEqual([
    'Part on: 2 each Gasket, part G-1, lot B7; release certificate TN-204.',
    'Part on: 1 each Gasket, part G-1, lot B8; without release certificate: Made in the shop (Test mechanic).',
  ]);
});

it('work of another aircraft, a stay that goes on, and a fitting’s disposition are refused', async () => {
  const { shop, visit, takeOff } = await visitWithHub();
  const other = await makeVisit(shop, {
    aircraftId: await shop.inside(
      async (tx) =>
        (
          await tx.aircraft.create({
            data: {
              ...{
                shopId: shop.shopId,
                modelId: shop.modelId,
                registration: 'QQ-OTH',
                serial: '2',
              },
            },
          })
        ).id,
    ),
  });
  expect(await takeOff({ disposition: 'tag', itemId: itemOf(other) })).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('the part is of another aircraft'),
  });
  const stay = await shop.inside((tx) => tx.componentFitting.findFirstOrThrow());
  const said = { fittingId: globalId('PartStay', stay.id), itemId: itemOf(visit) };
  expect(await does(shop, 'handleComponent', { ...said, side: 'off' })).toMatchObject({
    code: 'CONFLICT',
  });
  expect(
    await does(shop, 'handleComponent', { ...said, side: 'on', disposition: 'tag' }),
  ).toMatchObject({ code: 'BAD_INPUT' });
  expect(await shop.inside((tx) => tx.partHandling.count())).toBe(0);
});
