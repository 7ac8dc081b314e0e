/** Times that looked odd, over HTTP: decided by a person, and learned from accordingly. */
import { globalId as gid } from '@fairlead/api/ids';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask } from '../../support/shop.ts';
import { decide, oddShop, orderOf, read, usual } from './odd-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('decided by a person', () => {
  test('each verdict leaves the list, stands under decided with who and why, and is learned from', async () => {
    for (const [over, after] of [
      [{ verdict: 'stands' }, { items: 16, odd: 1 }],
      [{ verdict: 'left_out' }, { items: 15, odd: 0 }],
      [
        { verdict: 'taken_as', hours: 2.1 },
        { items: 16, odd: 0 },
      ],
      [{ verdict: 'other_task', task: 'belt' }, { items: 16 }],
    ] as const) {
      const shop = await oddShop(api);
      const [time] = (await read(shop)).proposed;
      const answer = await decide(shop, { timeId: time?.id, ...over }, 'inspector');
      expect(answer.code).toBeUndefined();
      expect(answer.proposed).toEqual([]);
      expect(answer.decided).toHaveLength(1);
      expect(answer.decided[0]).toMatchObject({ id: time?.id, hours: 31, proposal: null });
      expect(answer.decided[0]?.decisions).toMatchObject([
        {
          ...over,
          reason: 'The lamp was on all night',
          decidedBy: 'Test inspector',
          proposed: [expect.stringContaining('should take')],
        },
      ]);
      await learn(shop);
      const learned = await read(shop);
      expect(learned.model).toMatchObject(after);
      expect(learned.proposed).toEqual([]);
      expect(learned.decided).toHaveLength(1);
    }
  }, 60_000);

  test('it can be decided again, and the newest holds; of two at once the second is told; both stay in the audit', async () => {
    const shop = await oddShop(api);
    const [time] = (await read(shop)).proposed;
    await decide(shop, { timeId: time?.id, verdict: 'left_out' });
    const refused = await decide(shop, { timeId: time?.id, verdict: 'stands' }, 'inspector');
    expect(refused).toMatchObject({ code: 'CONFLICT', field: 'readDecisions' });
    expect(refused.message).toMatch(
      /^Test manager decided about it on .* UTC, after you read it\. Nothing of yours is saved/,
    );
    const again = await decide(shop, {
      timeId: time?.id,
      verdict: 'taken_as',
      hours: 3,
      reason: 'Three by the paper',
      readDecisions: 1,
    });
    expect(again.decided[0]?.decisions.map(({ verdict }) => verdict)).toEqual([
      'taken_as',
      'left_out',
    ]);
    // Why it had looked odd stays with it.
    expect(again.decided[0]?.decisions[0]?.proposed).toHaveLength(1);
    await learn(shop);
    expect((await read(shop)).model).toMatchObject({ items: 16 });
    await expect(shop.inside((tx) => tx.timeReview.deleteMany())).rejects.toThrow();
    const audit = await shop.inside((tx) =>
      tx.audit.findMany({ where: { tableName: 'time_review' } }),
    );
    expect(audit).toHaveLength(2);
    // A decision asks for a fit.
    const queue = rolePool({ url: api.database.appUrl, role: roles.jobs, max: 1 });
    const { rows } = await queue.query('select key from graphile_worker.jobs where key = $1', [
      `${shop.shopId}:refit_hours:shop`,
    ]);
    expect(rows).toHaveLength(1);
    await queue.end();
  });

  test.each([
    [
      { verdict: 'taken_as' },
      'hours',
      /hours are missing: needed are hands-on hours above 0 and up to 1000/,
    ],
    [{ verdict: 'taken_as', hours: 0 }, 'hours', /hours are 0: needed/],
    [{ verdict: 'taken_as', hours: -2 }, 'hours', /hours are -2: needed/],
    [{ verdict: 'taken_as', hours: 1e9 }, 'hours', /hours are 1000000000: needed/],
    [
      { verdict: 'taken_as', hours: 31 },
      'hours',
      /The clock says 31 h already: choose that it stands/,
    ],
    [{ verdict: 'stands', hours: 2 }, 'hours', /needed only where a time is taken as other hours/],
    [{ verdict: 'left_out', task: 'belt' }, 'task', /needed only where it was another task/],
    [{ verdict: 'other_task' }, 'task', /task is missing: needed is the short name/],
    [
      { verdict: 'other_task', task: 'no such' },
      'task',
      /task is "no such": needed is the short name of a task of the catalogue/,
    ],
    [{ verdict: 'other_task', task: 'hose' }, 'task', /which it is already: needed is another/],
    [{ verdict: 'stands', reason: 'x' }, 'reason', /reason has 1 characters: needed are 3 to 2000/],
    [{ verdict: 'stands', reason: 'x'.repeat(2001) }, 'reason', /2001 characters/],
  ])('%j is refused with what is needed', async (over, field, sentence) => {
    const shop = await oddShop(api);
    const [time] = (await read(shop)).proposed;
    const answer = await decide(shop, { timeId: time?.id, ...over });
    expect(answer).toMatchObject({ code: 'BAD_INPUT', field });
    expect(answer.message).toMatch(sentence);
    expect((await read(shop)).decided).toEqual([]);
  });

  test('who may: the manager and the inspector; of what: finished items of this shop', async () => {
    const shop = await oddShop(api);
    const [time] = (await read(shop)).proposed;
    for (const role of ['mechanic', 'front_desk'] as const) {
      expect(await read(shop, role)).toMatchObject({ code: 'FORBIDDEN' });
      expect(await decide(shop, { timeId: time?.id, verdict: 'stands' }, role)).toMatchObject({
        code: 'FORBIDDEN',
      });
    }
    const other = await oddShop(api);
    expect(await decide(other, { timeId: time?.id, verdict: 'stands' })).toMatchObject({
      code: 'NOT_FOUND',
      message: 'There is no such past job in this shop.',
    });
    expect(
      await decide(shop, { timeId: gid('Person', shop.people.mechanic.id), verdict: 'stands' }),
    ).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringContaining('timeId is the id of a Person'),
    });
    expect(await decide(shop, { timeId: 'nonsense', verdict: 'stands' })).toMatchObject({
      code: 'BAD_INPUT',
    });
    const task = await makeTask(shop);
    const order = await orderOf(shop);
    const open = await shop.inside((tx) =>
      tx.workItem.create({
        data: {
          orderId: order.id,
          position: 1,
          taskId: task.id,
          title: 'Still open',
          jasc: '7810',
        },
      }),
    );
    expect(
      await decide(shop, { timeId: gid('WorkItem', open.id), verdict: 'stands' }),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('Nothing is learned from "Still open" yet'),
    });
    // The right key under the wrong kind is not there.
    const { historyItemId } = await shop.inside(async (tx) => ({
      historyItemId: (await tx.historyItem.findFirstOrThrow({ where: { hours: 31 } })).id,
    }));
    expect(
      await decide(shop, { timeId: gid('WorkItem', historyItemId), verdict: 'stands' }),
    ).toMatchObject({ code: 'NOT_FOUND' });
    const { errors } = await shop.as(null, `{ oddTimes { __typename } }`);
    expect(errors ?? []).toEqual([]);
  });
});

test('reading costs as many statements for many odd times as for few', async () => {
  const statementsFor = async (many: number) => {
    const shop = await makeShop(api);
    await makeTask(shop, { key: 'hose' });
    await addJobs(shop, 'hose', [
      ...Array.from({ length: 6 }, () => usual).flat(),
      ...Array.from({ length: many }, (_, index) => 300 + index),
    ]);
    await learn(shop);
    const { proposed } = await read(shop);
    expect(proposed.length).toBe(many);
    await decide(shop, { timeId: proposed[0]?.id, verdict: 'stands' });
    return (await api.statementsOf(() => read(shop))).length;
  };
  expect(await statementsFor(12)).toBe(await statementsFor(2));
});
