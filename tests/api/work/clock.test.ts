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

const at = (time: string) => `2026-03-02T${time}:00Z`;
const stretchesIn = (shop: TestShop, personId: string) =>
  shop.inside(async (tx) => {
    const rows = await tx.stretch.findMany({ where: { personId }, orderBy: { startedAt: 'asc' } });
    return rows.map(({ itemId, startedAt, endedAt }) => [
      itemId,
      startedAt.toISOString().slice(11, 16),
      endedAt?.toISOString().slice(11, 16) ?? null,
    ]);
  });

describe('the clock', () => {
  it('starts, switches and stops, and the stretches follow', async () => {
    const shop = await makeShop(api);
    const {
      items: [a, b],
    } = await makeOrder(shop, { items: [{}, {}] });
    if (!a || !b) throw new Error('two items');
    expectDone(await clockAt(shop, 'mechanic', 'start', a.id, at('08:00')));
    expectDone(await clockAt(shop, 'mechanic', 'switch', b.id, at('09:30')));
    const running = await shop.as(
      'mechanic',
      '{ bench { running { item { id } person { name } endedAt } items { state secondsWorked runningBy { name } } } }',
    );
    expect(running.data).toMatchObject({
      bench: {
        running: { item: { id: b.id }, person: { name: 'Test mechanic' }, endedAt: null },
        items: [
          { state: 'in_work', secondsWorked: 5400, runningBy: [] },
          { state: 'in_work', runningBy: [{ name: 'Test mechanic' }] },
        ],
      },
    });
    expectDone(await clockAt(shop, 'mechanic', 'stop', b.id, at('10:00')));
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([
      [a.itemId, '08:00', '09:30'],
      [b.itemId, '09:30', '10:00'],
    ]);
    const after = await shop.as(
      'mechanic',
      '{ bench { running { seconds } items { secondsWorked stretches { seconds } } } }',
    );
    expect(after.data).toEqual({
      bench: {
        running: null,
        items: [
          { secondsWorked: 5400, stretches: [{ seconds: 5400 }] },
          { secondsWorked: 1800, stretches: [{ seconds: 1800 }] },
        ],
      },
    });
  });

  it('comes to the same when the events of an hour without a network arrive in another order', async () => {
    const shop = await makeShop(api);
    const {
      items: [a, b],
    } = await makeOrder(shop, { items: [{}, {}] });
    if (!a || !b) throw new Error('two items');
    await clockAt(shop, 'mechanic', 'stop', null, at('11:00'));
    await clockAt(shop, 'mechanic', 'switch', b.id, at('10:00'));
    await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
    await clockAt(shop, 'mechanic', 'stop', a.id, at('09:00'));
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([
      [a.itemId, '08:00', '09:00'],
      [b.itemId, '10:00', '11:00'],
    ]);
  });

  it('the same event sent ten times at once is recorded once, and every time the same answer comes back', async () => {
    const shop = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    if (!a) throw new Error('an item');
    const clientEventId = randomUUID();
    await shop.cookie('mechanic');
    const answers = await Promise.all(
      Array.from({ length: 10 }, () =>
        clockAt(shop, 'mechanic', 'start', a.id, at('08:00'), clientEventId),
      ),
    );
    expect(new Set(answers.map(({ id }) => id)).size).toBe(1);
    expect(await shop.inside((tx) => tx.clockEvent.count())).toBe(1);
    const later = await clockAt(shop, 'mechanic', 'start', a.id, at('09:59'), clientEventId, 'at');
    expect(later).toMatchObject({ id: answers[0]?.id, at: '2026-03-02T08:00:00.000Z' });
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([[a.itemId, '08:00', null]]);
  });

  it('many different events of one person at once leave no two stretches at one time', async () => {
    const shop = await makeShop(api);
    const { items } = await makeOrder(shop, { items: [{}, {}, {}] });
    await shop.cookie('mechanic');
    const minutes = Array.from({ length: 12 }, (_, index) => index);
    const answers = await Promise.all(
      minutes.map((n) =>
        clockAt(
          shop,
          'mechanic',
          n % 4 === 3 ? 'stop' : 'start',
          items[n % 3]?.id ?? null,
          at(`08:${String(n).padStart(2, '0')}`),
        ),
      ),
    );
    answers.map(expectDone);
    const stretches = await stretchesIn(shop, shop.people.mechanic.id);
    expect(stretches).toHaveLength(9);
    expect(stretches.map(([, from]) => from)).toEqual([
      '08:00',
      '08:01',
      '08:02',
      '08:04',
      '08:05',
      '08:06',
      '08:08',
      '08:09',
      '08:10',
    ]);
  });

  it('two people work on one item at the same time', async () => {
    const shop = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    if (!a) throw new Error('an item');
    await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
    await clockAt(shop, 'inspector', 'start', a.id, at('08:10'));
    const bench = await shop.as('mechanic', '{ bench { items { runningBy { name } } } }');
    expect(bench.data).toEqual({
      bench: { items: [{ runningBy: [{ name: 'Test mechanic' }, { name: 'Test inspector' }] }] },
    });
  });

  it('is never refused for the state of an item or for money', async () => {
    const shop = await makeShop(api);
    const {
      orderId,
      items: [a],
    } = await makeOrder(shop, { arrived: false });
    if (!a) throw new Error('an item');
    await shop.inside((tx) => tx.orderEvent.create({ data: { orderId, kind: 'cancelled' } }));
    expectDone(await clockAt(shop, 'mechanic', 'start', a.id, at('08:00')));
  });

  it('refuses what cannot be true', async () => {
    const shop = await makeShop(api);
    const other = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    const {
      items: [theirs],
    } = await makeOrder(other);
    if (!a || !theirs) throw new Error('items');
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', theirs.id, at('08:00')),
      'NOT_FOUND',
      /no such item/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', globalId('WorkItem', randomUUID()), at('08:00')),
      'NOT_FOUND',
      /no such item/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', shop.aircraftId, at('08:00')),
      'BAD_INPUT',
      /not an id/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', globalId('Aircraft', shop.aircraftId), at('08:00')),
      'BAD_INPUT',
      /needed is the id of a WorkItem/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'switch', null, at('08:00')),
      'BAD_INPUT',
      /without an item/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', a.id, '1999-12-31T23:59:59Z'),
      'BAD_INPUT',
      /from 2000 on/,
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', a.id, new Date(Date.now() + 25 * 3_600_000)),
      'BAD_INPUT',
      /no more than 24 hours ahead/,
    );
    expectDone(
      await clockAt(shop, 'mechanic', 'start', a.id, new Date(Date.now() + 23 * 3_600_000)),
    );
    expectRefused(
      await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'), 'not a uuid'),
      'BAD_INPUT',
      /needed is a UUID/,
    );
    expectRefused(
      await clockAt(shop, 'front_desk', 'start', a.id, at('08:00')),
      'FORBIDDEN',
      /a mechanic or an inspector/,
    );
    const clientEventId = randomUUID();
    expectDone(await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'), clientEventId));
    expectRefused(
      await clockAt(shop, 'inspector', 'start', a.id, at('08:00'), clientEventId),
      'CONFLICT',
      /for somebody else/,
    );
    // The other shop may use the same id: it is unique in a shop.
    expectDone(await clockAt(other, 'mechanic', 'start', theirs.id, at('08:00'), clientEventId));
    const nobody = await shop.as(
      null,
      `mutation { clock(input: { kind: stop, at: "${at('08:00')}", clientEventId: "${randomUUID()}" }) { __typename ... on Refusal { code } } }`,
    );
    expect(nobody.data).toEqual({ clock: { __typename: 'Refusal', code: 'SIGN_IN_NEEDED' } });
  });

  it('taking up an item that waits says that it waits no more; an event of before says nothing', async () => {
    const shop = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    if (!a) throw new Error('an item');
    await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
    await clockAt(shop, 'mechanic', 'stop', a.id, at('08:10'));
    const waits = await mutate(
      shop,
      'mechanic',
      'waitItem',
      { itemId: a.id, waitingFor: 'parts', note: 'gasket' },
      'state waitingFor',
    );
    expect(waits).toMatchObject({ state: 'waiting', waitingFor: 'parts' });
    await clockAt(shop, 'mechanic', 'start', a.id, at('07:00'));
    const still = await shop.as('mechanic', '{ bench { items { state waitingFor } } }');
    expect(still.data).toEqual({ bench: { items: [{ state: 'waiting', waitingFor: 'parts' }] } });
    await clockAt(shop, 'mechanic', 'start', a.id, new Date(Date.now() + 1000));
    const now = await shop.as(
      'mechanic',
      '{ bench { items { state waitingFor events { kind } } } }',
    );
    expect(now.data).toEqual({
      bench: {
        items: [
          {
            state: 'in_work',
            waitingFor: null,
            events: [{ kind: 'waiting' }, { kind: 'resumed' }],
          },
        ],
      },
    });
  });
});

describe('a correction of the clock', () => {
  const correct = (
    shop: TestShop,
    role: 'mechanic' | 'inspector' | 'manager',
    eventId: string | undefined,
    time: string,
    over: Record<string, unknown> = {},
  ) =>
    mutate(
      shop,
      role,
      'correctClock',
      { eventId, at: at(time), reason: 'forgot to stop', clientEventId: randomUUID(), ...over },
      'kind at corrects { id at }',
    );

  it('replaces the time of an event, which itself stays as it was recorded', async () => {
    const shop = await makeShop(api);
    const {
      items: [a, b],
    } = await makeOrder(shop, { items: [{}, {}] });
    if (!a || !b) throw new Error('two items');
    await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
    const stop = await clockAt(shop, 'mechanic', 'stop', a.id, at('12:00'));
    await clockAt(shop, 'mechanic', 'start', b.id, at('13:00'));
    const correction = await correct(shop, 'mechanic', stop.id, '09:00');
    expect(correction).toMatchObject({
      kind: 'correction',
      at: '2026-03-02T09:00:00.000Z',
      corrects: { id: stop.id, at: '2026-03-02T12:00:00.000Z' },
    });
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([
      [a.itemId, '08:00', '09:00'],
      [b.itemId, '13:00', null],
    ]);
    // A correction of the correction is a correction of the event.
    const again = await correct(shop, 'mechanic', correction.id, '10:00');
    expect(again).toMatchObject({ corrects: { id: stop.id } });
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([
      [a.itemId, '08:00', '10:00'],
      [b.itemId, '13:00', null],
    ]);
    // Later than it was, past the next start: the stop then ends that one.
    await correct(shop, 'mechanic', stop.id, '14:00');
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([
      [a.itemId, '08:00', '13:00'],
      [b.itemId, '13:00', '14:00'],
    ]);
  });

  it('sent twice counts once', async () => {
    const shop = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    const start = await clockAt(shop, 'mechanic', 'start', a?.id ?? '', at('08:00'));
    const clientEventId = randomUUID();
    const answers = await Promise.all(
      [1, 2, 3].map(() => correct(shop, 'mechanic', start.id, '08:30', { clientEventId })),
    );
    expect(new Set(answers.map(({ id }) => id)).size).toBe(1);
    expect(await shop.inside((tx) => tx.clockEvent.count())).toBe(2);
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([[a?.itemId, '08:30', null]]);
  });

  it('is for one’s own clock; the manager may correct anybody’s', async () => {
    const shop = await makeShop(api);
    const other = await makeShop(api);
    const {
      items: [a],
    } = await makeOrder(shop);
    const start = await clockAt(shop, 'mechanic', 'start', a?.id ?? '', at('08:00'));
    expectRefused(
      await correct(shop, 'inspector', start.id, '08:30'),
      'FORBIDDEN',
      /somebody else’s clock/,
    );
    expectRefused(
      await correct(other, 'mechanic', start.id, '08:30'),
      'NOT_FOUND',
      /no such clock event/,
    );
    expectRefused(
      await correct(shop, 'mechanic', start.id, '08:30', { reason: '  ' }),
      'BAD_INPUT',
      /reason has 0 characters/,
    );
    expectRefused(
      await correct(shop, 'mechanic', start.id, '08:30', { at: '1998-01-01T00:00:00Z' }),
      'BAD_INPUT',
      /from 2000 on/,
    );
    expectDone(await correct(shop, 'manager', start.id, '08:30'));
    expect(await stretchesIn(shop, shop.people.mechanic.id)).toEqual([[a?.itemId, '08:30', null]]);
  });
});
