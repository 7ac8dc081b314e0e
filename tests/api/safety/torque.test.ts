import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { expectDone, expectRefused, makeOrder, mutate } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const wrench = async (shop: TestShop, over = {}) =>
  expectDone(
    await mutate(
      shop,
      'manager',
      'addTool',
      {
        kind: 'torque_wrench',
        name: 'Torque wrench',
        number: 'TW-2',
        dueOn: '2099-01-31',
        ...over,
      },
      'name number goodUntil lapsed',
    ),
  );
const torque = (shop: TestShop, itemId: string | undefined, toolId: string, over = {}) =>
  mutate(
    shop,
    'mechanic',
    'recordTorque',
    {
      itemId,
      toolId,
      fastener: 'Exhaust stack nuts, all 4',
      torque: '135',
      unit: 'in_lb',
      source: 'maker',
      clientEventId: randomUUID(),
      ...over,
    },
    'fastener torque drag setting lapsed reason goodUntil source nut tool { number } by { name }',
  );
const compression = (shop: TestShop, itemId: string | undefined, over = {}) =>
  mutate(
    shop,
    'mechanic',
    'recordCompression',
    { itemId, supply: 80, held: [78, 60, 59, 80], clientEventId: randomUUID(), ...over },
    'supply cylinders { number held inExcess }',
  );

describe('tools', () => {
  it('are kept by the manager, good until a day, and calibrated anew', async () => {
    const shop = await makeShop(api);
    const tool = await wrench(shop, { dueOn: '2020-03-31' });
    expect(tool).toMatchObject({ goodUntil: '2020-03-31', lapsed: true });
    const toolId = tool.id ?? '';
    const again = await mutate(
      shop,
      'manager',
      'calibrateTool',
      { toolId, dueOn: '2099-03-31', words: 'Certificate 41' },
      'goodUntil lapsed calibrations { dueOn words by { name } }',
    );
    expect(again).toMatchObject({
      goodUntil: '2099-03-31',
      lapsed: false,
      calibrations: [
        { dueOn: '2099-03-31', words: 'Certificate 41', by: { name: 'Test manager' } },
        { dueOn: '2020-03-31', words: '', by: { name: 'Test manager' } },
      ],
    });
    expectRefused(
      await mutate(shop, 'manager', 'addTool', {
        kind: 'torque_wrench',
        name: 'Other',
        number: 'TW-2',
        dueOn: '2099-01-01',
      }),
      'CONFLICT',
      /TW-2 is that of “Torque wrench”/,
    );
    expectRefused(
      await mutate(shop, 'mechanic', 'retireTool', { toolId }),
      'FORBIDDEN',
      /for the manager/,
    );
    expectDone(await mutate(shop, 'manager', 'retireTool', { toolId }));
    expect((await shop.as('mechanic', '{ tools { number } }')).data).toEqual({ tools: [] });
    expectRefused(
      await mutate(shop, 'manager', 'calibrateTool', { toolId, dueOn: '2099-12-31' }),
      'AGAINST_RULE',
      /was retired/,
    );
  });
});

describe('a torque', () => {
  it('is recorded with its wrench, drag added and the adapter reckoned in', async () => {
    const shop = await makeShop(api);
    const { items } = await makeOrder(shop);
    const tool = await wrench(shop);
    // AC 43.13-1B, 7-40 h and figure 7-2: 135 in-lb on a lever of 10 with 1.5 more is set to 117.39.
    expect(
      await torque(shop, items[0]?.id, tool.id ?? '', { lever: '10', extension: '1.5' }),
    ).toMatchObject({
      torque: '135',
      setting: '117.39',
      lapsed: false,
      tool: { number: 'TW-2' },
      by: { name: 'Test mechanic' },
    });
    expect(
      await torque(shop, items[0]?.id, tool.id ?? '', { lever: '10', extension: '-1.5' }),
    ).toMatchObject({ setting: '158.82' });
    expect(await torque(shop, items[0]?.id, tool.id ?? '', { drag: '12' })).toMatchObject({
      setting: '147',
      drag: '12',
    });
    expect(
      (
        await shop.as(
          'mechanic',
          '{ torqueSetting(torque: "300", unit: in_lb, lever: "10", extension: "4") { ... on TorqueSetting { setting } } }',
        )
      ).data,
    ).toEqual({ torqueSetting: { setting: '214.29' } });
    const clientEventId = randomUUID();
    const [one, other] = await Promise.all([
      torque(shop, items[0]?.id, tool.id ?? '', { clientEventId }),
      torque(shop, items[0]?.id, tool.id ?? '', { clientEventId }),
    ]);
    expect(expectDone(one).id).toBe(expectDone(other).id);
  });

  it('with a lapsed wrench wants a reason, and is flagged', async () => {
    const shop = await makeShop(api);
    const { items } = await makeOrder(shop);
    const tool = await wrench(shop, { dueOn: '2020-03-31' });
    expectRefused(
      await torque(shop, items[0]?.id, tool.id ?? ''),
      'AGAINST_RULE',
      /calibration of “Torque wrench” TW-2 lapsed after 2020-03-31: take one that is good, or say why/,
    );
    expect(
      await torque(shop, items[0]?.id, tool.id ?? '', {
        reason: 'The only one that reaches; checked against TW-5.',
      }),
    ).toMatchObject({
      lapsed: true,
      goodUntil: '2020-03-31',
      reason: 'The only one that reaches; checked against TW-5.',
    });
  });

  it('of the general table keeps to the table, and only for a thread that it names', async () => {
    const shop = await makeShop(api);
    const { items } = await makeOrder(shop);
    const tool = await wrench(shop);
    const general = { source: 'general', thread: '1/4-28', nut: 'tension' };
    const record = (over: object) =>
      torque(shop, items[0]?.id, tool.id ?? '', { ...general, ...over });
    expect(await record({ torque: '70', drag: '12' })).toMatchObject({
      source: 'general',
      nut: 'tension',
      setting: '82',
    });
    // 50 in-lb in newton metres, to hundredths.
    expectDone(await record({ torque: '5.65', unit: 'n_m' }));
    expectRefused(
      await record({ torque: '101' }),
      'AGAINST_RULE',
      /101 in-lb was given for a tension nut on 1\/4-28: AC 43\.13-1B, table 7-1, has 50 to 70 in-lb, never beyond 100/,
    );
    expectRefused(
      await record({ torque: '6', unit: 'ft_lb', nut: 'shear' }),
      'AGAINST_RULE',
      /30 to 40/,
    );
    expectRefused(
      await record({ thread: 'M8' }),
      'BAD_INPUT',
      /has no tension nut on a thread “M8”/,
    );
    expectRefused(
      await torque(shop, items[0]?.id, tool.id ?? '', { source: 'general', thread: '1/4-28' }),
      'BAD_INPUT',
      /no kind of nut/,
    );
  });

  it('refuses an adapter of half a figure, nothing to tighten and an item that is inspected', async () => {
    const shop = await makeShop(api);
    const { items } = await makeOrder(shop);
    const tool = await wrench(shop);
    const record = (over: object) => torque(shop, items[0]?.id, tool.id ?? '', over);
    const gear = await wrench(shop, { kind: 'test_gear', number: 'DC-1', name: 'Tester' });
    expectRefused(
      await torque(shop, items[0]?.id, gear.id ?? ''),
      'BAD_INPUT',
      /“Tester” DC-1 is test gear: needed is a torque wrench/,
    );
    expectRefused(await record({ lever: '10' }), 'BAD_INPUT', /the lever alone/);
    expectRefused(await record({ lever: '10', extension: '-10' }), 'BAD_INPUT', /shorter than/);
    expectRefused(await record({ torque: '0' }), 'BAD_INPUT', /torque is 0/);
    await shop.inside((tx) =>
      tx.itemEvent.create({
        data: {
          itemId: items[0]?.itemId ?? '',
          kind: 'put_off',
          note: 'x',
          byId: shop.people.manager.id,
        },
      }),
    );
    expectRefused(await record({}), 'CONFLICT', /cannot be given a torque: it is put off/);
  });
});

it('a compression check is recorded whatever it shows; a loss in excess of a quarter is marked', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop);
  expect(await compression(shop, items[0]?.id)).toMatchObject({
    supply: 80,
    cylinders: [
      { number: 1, held: 78, inExcess: false },
      { number: 2, held: 60, inExcess: false },
      { number: 3, held: 59, inExcess: true },
      { number: 4, held: 80, inExcess: false },
    ],
  });
  expectRefused(
    await compression(shop, items[0]?.id, { held: [78, 81] }),
    'BAD_INPUT',
    /Cylinder 2 is given as 81 psi: needed is 0 to the 80/,
  );
  expectRefused(await compression(shop, items[0]?.id, { held: [] }), 'BAD_INPUT', /0 readings/);
  expectRefused(await compression(shop, items[0]?.id, { supply: 0 }), 'BAD_INPUT', /supply is 0/);
});
