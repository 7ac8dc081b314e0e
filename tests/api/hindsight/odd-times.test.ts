/** Times that look odd, over HTTP: proposed with their reasons. */
import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { openInTheWeek } from '../../support/open-in-the-week.ts';
import { addJobs, learn, makeShop, makeTask } from '../../support/shop.ts';
import { clocked, oddShop, orderOf, read, usual } from './odd-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('proposed by the model', () => {
  test('a shop that has fitted nothing, and one where all is as usual, have nothing to decide', async () => {
    const shop = await makeShop(api);
    expect(await read(shop)).toEqual({ model: null, proposed: [], decided: [] });
    await addJobs(shop, 'hose', usual);
    await learn(shop);
    expect((await read(shop)).proposed).toEqual([]);
  });

  test('a time far from the rest is proposed with its reason; it counts less and is not left out', async () => {
    const shop = await oddShop(api);
    const found = await read(shop);
    expect(found.model).toMatchObject({ number: 1, items: 16, odd: 1 });
    expect(found.proposed).toHaveLength(1);
    const [time] = found.proposed;
    expect(time).toMatchObject({
      own: false,
      itemId: null,
      title: 'Replace hose',
      hours: 31,
      mechanics: ['Ann'],
      decisions: [],
    });
    expect(time?.proposal?.reasons).toMatchObject([
      {
        kind: 'too_long',
        words: expect.stringMatching(/times the 2\.\d h that it should take; fewer than one in/),
      },
    ]);
    expect(time?.proposal?.weight).toBeGreaterThan(0);
    expect(time?.proposal?.weight).toBeLessThan(0.5);
  });

  test('a clock that ran over night passes the hours that its people were in; evening work does not', async () => {
    const shop = await makeShop(api);
    await openInTheWeek(shop, 8, 17);
    const task = await makeTask(shop, { key: 'hose', standardHours: '6' });
    const order = await orderOf(shop);
    // Monday 2026-03-02, 15:00, to Tuesday 9:00: in for two hours and one.
    const night = await clocked(shop, {
      taskId: task.id,
      orderId: order.id,
      stretches: [['2026-03-02T15:00:00Z', '2026-03-03T09:00:00Z']],
    });
    // Late in the evening, and over midnight by somebody who was there: they started and stopped it.
    await clocked(shop, {
      taskId: task.id,
      orderId: order.id,
      stretches: [['2026-03-04T18:00:00Z', '2026-03-04T23:30:00Z']],
    });
    await learn(shop);
    const { proposed } = await read(shop);
    const time = proposed.find(({ itemId }) => itemId === gid('WorkItem', night));
    expect(time).toMatchObject({ own: true, hours: 18, orderNumber: order.number });
    expect(time?.proposal?.reasons[0]).toMatchObject({
      kind: 'impossible',
      words: '18.0 h were clocked, but its people were in for 3.0 h.',
    });
    expect(
      proposed.filter(({ proposal }) =>
        proposal?.reasons.some(({ kind }) => kind === 'impossible'),
      ),
    ).toHaveLength(1);
  });

  test('hours that fit another task of the same order are proposed as that', async () => {
    const shop = await makeShop(api);
    const long = await makeTask(shop, { key: 'long', standardHours: null });
    const short = await makeTask(shop, {
      key: 'short',
      title: 'The short one',
      standardHours: null,
    });
    await addJobs(
      shop,
      'long',
      usual.map((each) => each * 6),
    );
    await addJobs(
      shop,
      'short',
      usual.map((each) => each / 4),
    );
    const order = await orderOf(shop);
    await clocked(shop, {
      taskId: long.id,
      orderId: order.id,
      stretches: [['2026-03-02T08:00:00Z', '2026-03-02T08:30:00Z']],
    });
    await clocked(shop, {
      taskId: short.id,
      orderId: order.id,
      stretches: [['2026-03-02T09:00:00Z', '2026-03-02T09:30:00Z']],
    });
    await learn(shop);
    const { proposed } = await read(shop);
    expect(proposed[0]).toMatchObject({ task: 'long', hours: 0.5 });
    expect(proposed[0]?.proposal?.reasons).toContainEqual(
      expect.objectContaining({
        kind: 'wrong_task',
        otherTask: 'short',
        words: expect.stringContaining('is what "The short one" of the same order takes'),
      }),
    );
  });

  test('one whose clock was corrected since is no longer proposed', async () => {
    const shop = await makeShop(api);
    await openInTheWeek(shop, 8, 17);
    const task = await makeTask(shop, { key: 'hose' });
    await addJobs(shop, 'hose', usual);
    const order = await orderOf(shop);
    const item = await clocked(shop, {
      taskId: task.id,
      orderId: order.id,
      stretches: [['2026-03-02T08:00:00Z', '2026-03-03T18:00:00Z']],
    });
    await learn(shop);
    expect((await read(shop)).proposed).toHaveLength(1);
    await shop.inside(async (tx) => {
      await tx.stretch.deleteMany({ where: { itemId: item } });
      await tx.stretch.create({
        data: {
          itemId: item,
          personId: shop.people.mechanic.id,
          startedAt: new Date('2026-03-02T08:00:00Z'),
          endedAt: new Date('2026-03-02T10:00:00Z'),
        },
      });
    });
    expect((await read(shop)).proposed).toEqual([]);
  });
});
