import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { clockAt, expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const oneItem = async (over = {}) => {
  const shop = await makeShop(api);
  const order = await makeOrder(shop, { items: [over] });
  const [item] = order.items;
  if (!item) throw new Error('an item');
  return { shop, order, item };
};
const finish = (
  shop: TestShop,
  itemId: string,
  over = {},
  role: 'mechanic' | 'inspector' = 'mechanic',
) =>
  mutate(
    shop,
    role,
    'finishItem',
    { itemId, workDone: 'Replaced the hose, torqued, leak check good.', ...over },
    'state foundAccess { clearanceMm sight held } events { kind workDone }',
  );
const initial = (shop: TestShop, itemId: string, second = false) =>
  mutate(shop, 'inspector', 'initialItem', { itemId, second }, 'state events { kind by { name } }');
const eventsOf = (shop: TestShop, itemId: string) =>
  shop.inside((tx) => tx.itemEvent.count({ where: { itemId } }));

describe('cautions', () => {
  it('are read by each person for themselves, and once is enough', async () => {
    const { shop, item } = await oneItem({ cautions: ['Fuel vapour: battery off.'] });
    const read = () => shop.as('mechanic', '{ bench { items { cautions cautionsRead } } }');
    expect((await read()).data).toEqual({
      bench: { items: [{ cautions: ['Fuel vapour: battery off.'], cautionsRead: false }] },
    });
    for (let twice = 0; twice < 2; twice += 1)
      expect(
        await mutate(shop, 'mechanic', 'readCautions', { itemId: item.id }, 'cautionsRead'),
      ).toMatchObject({ cautionsRead: true });
    expect(await shop.inside((tx) => tx.cautionReading.count())).toBe(1);
    const other = await shop.as('inspector', '{ bench { items { cautionsRead } } }');
    expect(other.data).toEqual({ bench: { items: [{ cautionsRead: false }] } });
    expectRefused(
      await mutate(shop, 'mechanic', 'readCautions', {
        itemId: globalId('WorkItem', randomUUID()),
      }),
      'NOT_FOUND',
      /no such item/,
    );
    expectRefused(
      await mutate(shop, 'front_desk', 'readCautions', { itemId: item.id }),
      'FORBIDDEN',
      /mechanic/,
    );
  });

  it('an item without any has nothing to read', async () => {
    const { shop } = await oneItem();
    expect((await shop.as('mechanic', '{ bench { items { cautionsRead } } }')).data).toEqual({
      bench: { items: [{ cautionsRead: true }] },
    });
  });
});

describe('waiting', () => {
  it('has a reason, which can change, and ends when it is resumed', async () => {
    const { shop, item } = await oneItem();
    const wait = (waitingFor: string, note = '') =>
      mutate(
        shop,
        'mechanic',
        'waitItem',
        { itemId: item.id, waitingFor, note },
        'state waitingFor',
      );
    expect(await wait('parts')).toMatchObject({ state: 'waiting', waitingFor: 'parts' });
    expectDone(await wait('parts'));
    expect(await wait('owner', 'price not agreed')).toMatchObject({
      state: 'waiting',
      waitingFor: 'owner',
    });
    expect(await eventsOf(shop, item.itemId)).toBe(2);
    const resume = () =>
      mutate(shop, 'mechanic', 'resumeItem', { itemId: item.id }, 'state waitingFor');
    expect(await resume()).toMatchObject({ state: 'open', waitingFor: null });
    expectDone(await resume());
    expect(await eventsOf(shop, item.itemId)).toBe(3);
  });

  it('is refused while a clock runs on the item, naming whose', async () => {
    const { shop, item } = await oneItem();
    await clockAt(shop, 'inspector', 'start', item.id, '2026-03-02T08:00:00Z');
    expectRefused(
      await mutate(shop, 'mechanic', 'waitItem', { itemId: item.id, waitingFor: 'parts' }),
      'CONFLICT',
      /while the clock of Test inspector runs on it/,
    );
  });
});

describe('finishing an item', () => {
  it('keeps what was done and how the place was found; the same sent twice is done once', async () => {
    const { shop, item } = await oneItem();
    const foundAccess = { clearanceMm: 95, sight: 'mirror', held: true };
    const done = await finish(shop, item.id, { foundAccess });
    expect(done).toMatchObject({
      state: 'done',
      foundAccess,
      events: [{ kind: 'done', workDone: 'Replaced the hose, torqued, leak check good.' }],
    });
    expectDone(await finish(shop, item.id, { foundAccess }));
    expect(await eventsOf(shop, item.itemId)).toBe(1);
    expectRefused(
      await finish(shop, item.id, { workDone: 'Something else.' }),
      'CONFLICT',
      /it is done; needed is one that is open or in work or waiting/,
    );
  });

  it('two people finishing it at once finish it once', async () => {
    const { shop, item } = await oneItem();
    await Promise.all([shop.cookie('mechanic'), shop.cookie('inspector')]);
    const answers = await Promise.all([
      finish(shop, item.id, {}, 'mechanic'),
      finish(shop, item.id, {}, 'inspector'),
    ]);
    expect(answers.map(({ __typename }) => __typename).sort()).toEqual(['Refusal', 'WorkItem']);
    expect(await eventsOf(shop, item.itemId)).toBe(1);
  });

  it('needs words, a stopped clock, the aircraft, and figures that can be', async () => {
    const { shop, item } = await oneItem();
    expectRefused(
      await finish(shop, item.id, { workDone: ' \n ' }),
      'BAD_INPUT',
      /workDone has 0 characters: needed are 3 to 4000/,
    );
    expectRefused(
      await finish(shop, item.id, { workDone: 'x'.repeat(4001) }),
      'BAD_INPUT',
      /4001 characters/,
    );
    expectRefused(
      await finish(shop, item.id, { foundAccess: { clearanceMm: -1 } }),
      'BAD_INPUT',
      /clearanceMm is -1: needed is 0 to 100000 mm/,
    );
    expectRefused(
      await finish(shop, item.id, { foundAccess: { swingDeg: 361 } }),
      'BAD_INPUT',
      /0 to 360 degrees/,
    );
    await clockAt(shop, 'mechanic', 'start', item.id, '2026-03-02T08:00:00Z');
    expectRefused(await finish(shop, item.id), 'CONFLICT', /clock of Test mechanic runs/);
    expect(await eventsOf(shop, item.itemId)).toBe(0);
    expect(await shop.inside((tx) => tx.access.count())).toBe(0);

    const {
      items: [early],
    } = await makeOrder(shop, { arrived: false });
    expectRefused(await finish(shop, early?.id ?? ''), 'AGAINST_RULE', /has not arrived/);
    const {
      orderId,
      items: [late],
    } = await makeOrder(shop);
    await shop.inside((tx) => tx.orderEvent.create({ data: { orderId, kind: 'closed' } }));
    expectRefused(
      await finish(shop, late?.id ?? ''),
      'AGAINST_RULE',
      /is closed: nothing of its items can be changed/,
    );
  });

  it('of another shop is not there', async () => {
    const { shop } = await oneItem();
    const { item: theirs } = await oneItem();
    for (const [name, input] of Object.entries({
      finishItem: { workDone: 'Something.' },
      waitItem: { waitingFor: 'parts' },
      resumeItem: {},
      reopenItem: { reason: 'because' },
      initialItem: { second: false },
    }))
      expectRefused(
        await mutate(shop, 'inspector', name, { itemId: theirs.id, ...input }),
        'NOT_FOUND',
        /no such item/,
      );
    expectRefused(
      await mutate(shop, 'manager', 'putOffItem', { itemId: theirs.id, reason: 'because' }),
      'NOT_FOUND',
      /no such item/,
    );
  });
});

describe('putting off and reopening', () => {
  it('an item put off is not on this visit until an inspector reopens it', async () => {
    const { shop, item } = await oneItem();
    const putOff = () =>
      mutate(
        shop,
        'front_desk',
        'putOffItem',
        { itemId: item.id, reason: 'The owner declined.' },
        'state events { note }',
      );
    expect(await putOff()).toMatchObject({
      state: 'put_off',
      events: [{ note: 'The owner declined.' }],
    });
    expectDone(await putOff());
    expect(await eventsOf(shop, item.itemId)).toBe(1);
    expectRefused(await finish(shop, item.id), 'CONFLICT', /it is put off/);
    expectRefused(
      await mutate(shop, 'mechanic', 'reopenItem', { itemId: item.id, reason: 'changed mind' }),
      'FORBIDDEN',
      /an inspector or the manager can reopen it/,
    );
    expect(
      await mutate(
        shop,
        'inspector',
        'reopenItem',
        { itemId: item.id, reason: 'The owner changed their mind.' },
        'state',
      ),
    ).toMatchObject({ state: 'open' });
    expectRefused(
      await mutate(shop, 'mechanic', 'putOffItem', { itemId: item.id, reason: 'no time' }),
      'FORBIDDEN',
      /front desk/,
    );
  });

  it('reopened work has to be done and initialled again', async () => {
    const { shop, item } = await oneItem();
    await finish(shop, item.id);
    expect(await initial(shop, item.id)).toMatchObject({ state: 'inspected' });
    expectRefused(
      await mutate(shop, 'mechanic', 'reopenItem', { itemId: item.id, reason: 'leaks' }),
      'FORBIDDEN',
      /inspected/,
    );
    await mutate(shop, 'inspector', 'reopenItem', { itemId: item.id, reason: 'It leaks.' });
    expectRefused(
      await initial(shop, item.id),
      'CONFLICT',
      /it is open; needed is one that is done/,
    );
    await finish(shop, item.id, { workDone: 'Tightened again.' });
    expect(await initial(shop, item.id)).toMatchObject({ state: 'inspected' });
  });
});

describe('initials', () => {
  it('an inspector initials finished work once, also their own where it is not critical', async () => {
    const { shop, item } = await oneItem();
    expectRefused(
      await initial(shop, item.id),
      'CONFLICT',
      /it is open; needed is one that is done/,
    );
    await clockAt(shop, 'inspector', 'start', item.id, '2026-03-02T08:00:00Z');
    await clockAt(shop, 'inspector', 'stop', item.id, '2026-03-02T09:00:00Z');
    await finish(shop, item.id, {}, 'inspector');
    expect(await initial(shop, item.id)).toMatchObject({ state: 'inspected' });
    expectDone(await initial(shop, item.id));
    expect(await eventsOf(shop, item.itemId)).toBe(2);
    expectRefused(
      await initial(shop, item.id, true),
      'AGAINST_RULE',
      /is not critical: one initial is enough/,
    );
    for (const role of ['mechanic', 'front_desk', 'manager'] as const)
      expectRefused(
        await mutate(shop, role, 'initialItem', { itemId: item.id, second: false }),
        'FORBIDDEN',
        /This is for an inspector/,
      );
  });

  it('is refused while a clock runs on it', async () => {
    const { shop, item } = await oneItem();
    await finish(shop, item.id);
    await clockAt(shop, 'mechanic', 'start', item.id, '2026-03-02T08:00:00Z');
    expectRefused(await initial(shop, item.id), 'CONFLICT', /clock of Test mechanic runs/);
  });

  // A second, independent pair of eyes on critical work: common practice, no source.
  it('critical work wants a second pair of eyes: not of who initialled first, nor of who worked on it', async () => {
    const { shop, item } = await oneItem({ critical: true });
    const becomes = (data: { roles?: ('mechanic' | 'manager')[]; apprentice?: boolean }) =>
      shop.inside((tx) => tx.person.update({ where: { id: shop.people.manager.id }, data }));
    const second = (role: 'mechanic' | 'inspector' | 'manager') =>
      mutate(shop, role, 'initialItem', { itemId: item.id, second: true }, 'state');
    await clockAt(shop, 'mechanic', 'start', item.id, '2026-03-02T08:00:00Z');
    await clockAt(shop, 'mechanic', 'stop', item.id, '2026-03-02T09:00:00Z');
    await finish(shop, item.id);
    expectRefused(await second('inspector'), 'CONFLICT', /no first initial yet/);
    expect(await initial(shop, item.id)).toMatchObject({ state: 'done' });
    expectRefused(await second('inspector'), 'AGAINST_RULE', /you gave the first initial yourself/);
    expectRefused(await second('mechanic'), 'AGAINST_RULE', /you worked on it yourself/);
    expectRefused(await second('manager'), 'FORBIDDEN', /an inspector or a mechanic/);
    await becomes({ roles: ['manager', 'mechanic'], apprentice: true });
    expectRefused(await second('manager'), 'FORBIDDEN', /works under supervision/);
    await becomes({ apprentice: false });
    expect(await second('manager')).toMatchObject({ state: 'inspected' });
    expectDone(await second('manager'));
    expect(await eventsOf(shop, item.itemId)).toBe(3);
  });
});
