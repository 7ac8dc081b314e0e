import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { add, aircraft, dueOf, flown, NOW, record, type Said } from './flown.ts';

/** That a life goes with the part: 14 CFR 43.10, 91.417(a)(2)(ii). Figures worked by hand. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const does = async (
  shop: TestShop,
  mutation: 'addComponent' | 'fitComponent' | 'removeComponent',
  input: Record<string, unknown>,
  role: 'mechanic' | 'front_desk' = 'mechanic',
): Promise<Said> => {
  const type = mutation.charAt(0).toUpperCase() + mutation.slice(1);
  const { data, errors } = await shop.as<Record<string, Said>>(
    role,
    `mutation($input: ${type}Input!) { ${mutation}(input: $input) { ... on Component { id } ... on Refusal { code message } } }`,
    { input },
  );
  return data?.[mutation] ?? { message: JSON.stringify(errors) };
};
const blade = (shop: TestShop, over: Record<string, unknown> = {}) =>
  does(shop, 'addComponent', {
    ...{ kind: 'rotor', title: 'Rotor blade', partNumber: 'MB-1', serial: '77' },
    ...{ tisHundredths: 15_000, lifeLimitHundredths: 22_000 },
    ...over,
  });
const fitOn = (shop: TestShop, componentId = '', over: Record<string, unknown> = {}) =>
  does(shop, 'fitComponent', {
    ...{ componentId, aircraftId: aircraft(shop), position: 'red' },
    ...over,
  });
const takeOff = (shop: TestShop, componentId = '', over: Record<string, unknown> = {}) =>
  does(shop, 'removeComponent', {
    ...{ componentId, words: 'Moved to the other aircraft', disposition: 'tag' },
    ...over,
  });

/** Another aircraft of the shop, at 500.0 h. */
async function second(shop: TestShop): Promise<string> {
  const id = await shop.inside(async (tx) => {
    const { shopId, modelId } = shop;
    const craft = await tx.aircraft.create({
      data: { shopId, modelId, registration: 'QQ-2ND', serial: '0002' },
    });
    await tx.meterReading.create({
      data: {
        ...{ aircraftId: craft.id, meter: 'tachometer', readAt: new Date('2026-03-01') },
        ...{ readingHundredths: 50_000, tisHundredths: 50_000 },
      },
    });
    return craft.id;
  });
  return globalId('Aircraft', id);
}
interface Known {
  times: { tisHundredths: number | null; sinceOverhaulHundredths: number | null };
  aircraft: { registration: string } | null;
  stays: {
    aircraft: string;
    ownAtFitting: number | null;
    ownAtRemoval: number | null;
    carriedBy: string | null;
  }[];
}
async function known(shop: TestShop, id = ''): Promise<Known> {
  const { data, errors } = await shop.as<{ node: Known }>(
    'inspector',
    `query($id: ID!) { node(id: $id) { ... on Component { times { tisHundredths sinceOverhaulHundredths } aircraft { registration }
      stays { aircraft ownAtFitting ownAtRemoval carriedBy } } } }`,
    { id },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node;
}

describe('a part moved between aircraft', () => {
  it('carries its time, its life limit and its overhaul along', async () => {
    const shop = await flown(api);
    const other = await second(shop);
    const { id = '' } = await blade(shop, { sinceOverhaulHundredths: 1000 });
    // Fitted with 150.0 h at 1,240.0 h: now 150.0 + 60.0 = 210.0 h of 220.0 h.
    await fitOn(shop, id, { on: '2025-12-14', tisHundredths: 124_000 });
    await add(shop, {
      ...{ kind: 'limit', title: 'Life of the blade', source: 'Test manual 4', rule: 'life_limit' },
      ...{ limitHundredths: 22_000, componentId: id },
    });
    expect(await dueOf(shop)).toMatchObject([
      { dueAtHundredths: 131_000, remainingHundredths: 1000 },
    ]);
    expect(await takeOff(shop, id, { on: '2026-03-10', tisHundredths: 129_000 })).toEqual({ id });
    expect(await dueOf(shop)).toEqual([]);
    expect(await known(shop, id)).toMatchObject({
      times: { tisHundredths: 20_000, sinceOverhaulHundredths: 6000 },
      aircraft: null,
    });
    expect(await fitOn(shop, id, { aircraftId: other })).toEqual({ id });
    // 200.0 h of 220.0 h on an aircraft at 500.0 h: off by 520.0 h.
    const { data } = await shop.as<{
      node: {
        due: { lines: { title: string; dueAtHundredths: number; remainingHundredths: number }[] };
      };
    }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { due { lines { title dueAtHundredths remainingHundredths } } } } }',
      { id: other },
    );
    expect(data?.node.due.lines).toEqual([
      { title: 'Life of the blade', dueAtHundredths: 52_000, remainingHundredths: 2000 },
    ]);
    expect((await known(shop, id)).stays).toEqual([
      { aircraft: 'QQ-2ND', ownAtFitting: 20_000, ownAtRemoval: null, carriedBy: null },
      {
        aircraft: expect.stringMatching(/^QQ-/),
        ...{ ownAtFitting: 15_000, ownAtRemoval: 20_000, carriedBy: null },
      },
    ]);
  });

  it('takes along what it carries, and an overhaul on the shelf counts by its own time', async () => {
    const shop = await flown(api);
    const other = await second(shop);
    const engine = await blade(shop, { kind: 'engine', title: 'Engine', partNumber: 'E-4' });
    const magneto = await blade(shop, {
      kind: 'accessory',
      title: 'Magneto',
      serial: '9',
      tisHundredths: 0,
    });
    await fitOn(shop, engine.id, { position: 'engine', tisHundredths: 120_000 });
    await fitOn(shop, magneto.id, {
      position: 'left',
      parentId: engine.id,
      tisHundredths: 125_000,
    });
    const { id: itemId = '' } = await add(shop, {
      ...{ kind: 'overhaul', title: 'Overhaul', source: 'Test manual 5', rule: 'recurring' },
      ...{ everyHundredths: 200_000, componentId: engine.id },
    });
    await takeOff(shop, engine.id, { tisHundredths: 130_000 });
    expect((await known(shop, magneto.id)).aircraft).toBeNull();
    expect(await record(shop, itemId, { tisHundredths: 1 })).toMatchObject({
      message: expect.stringMatching(/on no aircraft: leave the time in service out/),
    });
    expect(await record(shop, itemId, { method: 'Overhauled' })).toEqual({ id: itemId });
    await fitOn(shop, engine.id, { aircraftId: other, position: 'engine' });
    expect((await known(shop, magneto.id)).stays[0]).toMatchObject({
      ...{ aircraft: 'QQ-2ND', ownAtFitting: 5000, carriedBy: 'Engine, serial 77' },
    });
    // 150.0 + 100.0 h since new, none since overhaul.
    expect((await known(shop, engine.id)).times).toEqual({
      ...{ tisHundredths: 25_000, sinceOverhaulHundredths: 0 },
    });
  });
});

describe('is refused, and nothing is changed', () => {
  it('a part that is fitted already, said with where and since when', async () => {
    const shop = await flown(api);
    const other = await second(shop);
    const { id } = await blade(shop);
    await fitOn(shop, id);
    expect(await fitOn(shop, id, { aircraftId: other })).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringMatching(
        /^Rotor blade, serial 77, is fitted to QQ-\w+ \(red\) since 2026-03-14: take it off there first\.$/,
      ),
    });
    expect(await shop.inside((tx) => tx.componentFitting.count())).toBe(1);
  });
  it('a place that is taken, a day to come, hours that were not flown, and what runs backwards', async () => {
    const shop = await flown(api);
    const [one, two] = [await blade(shop), await blade(shop, { serial: '78' })];
    await fitOn(shop, one.id, { on: '2026-03-01', tisHundredths: 129_000 });
    expect((await fitOn(shop, two.id, { position: 'Red' })).message).toMatch(
      /place “Red” of .* is taken by Rotor blade, serial 77/,
    );
    const plain = { position: 'plain' };
    expect((await fitOn(shop, two.id, { ...plain, on: '2026-03-15' })).message).toMatch(
      /today is 2026-03-14/,
    );
    expect((await fitOn(shop, two.id, { ...plain, tisHundredths: 130_001 })).message).toMatch(
      /stands at 1300\.0 h by its newest reading/,
    );
    expect((await takeOff(shop, one.id, { tisHundredths: 128_999 })).message).toMatch(
      /fitted at 1290\.0 h of .*: it cannot have come off at 1290\.0 h|fitted at 1290\.0 h/,
    );
    expect((await takeOff(shop, one.id, { on: '2026-02-28' })).message).toMatch(
      /fitted on 2026-03-01: it cannot have come off before that/,
    );
    expect((await takeOff(shop, two.id)).message).toMatch(/lies on the shelf/);
    await takeOff(shop, one.id, { tisHundredths: 129_500 });
    expect((await fitOn(shop, one.id, { tisHundredths: 129_400 })).message).toMatch(
      /came off .* at 1295\.0 h: it cannot have been fitted there again at 1294\.0 h/,
    );
    expect(await shop.inside((tx) => tx.componentFitting.count())).toBe(1);
  });
  it('a serial number twice, times that contradict each other, an unknown part, the desk', async () => {
    const shop = await flown(api);
    const { id } = await blade(shop);
    expect(await blade(shop)).toMatchObject({ code: 'CONFLICT' });
    expect((await blade(shop, { serial: '5', sinceOverhaulHundredths: 15_001 })).message).toMatch(
      /times contradict each other: 150\.0 h since overhaul are more than 150\.0 h|contradict/,
    );
    const nobody = globalId('Component', '00000000-0000-7000-8000-000000000000');
    expect(await fitOn(shop, nobody)).toMatchObject({ code: 'NOT_FOUND' });
    expect(await fitOn(shop, id, { parentId: id })).toMatchObject({ code: 'BAD_INPUT' });
    expect(
      await does(shop, 'removeComponent', { componentId: id, words: 'None' }, 'front_desk'),
    ).toMatchObject({ code: 'FORBIDDEN' });
    expect(await shop.inside((tx) => tx.component.count())).toBe(1);
  });
  it('any change of a stay that ended, whoever asks', async () => {
    const shop = await flown(api);
    const { id } = await blade(shop);
    await fitOn(shop, id);
    await takeOff(shop, id);
    await expect(
      shop.inside((tx) => tx.componentFitting.updateMany({ data: { removedTisHundredths: 1 } })),
    ).rejects.toThrow();
  });
});
