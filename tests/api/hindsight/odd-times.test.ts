/** Times that look odd, over HTTP: proposed with their reasons, decided by a person, learned from accordingly. */
import { globalId as gid } from '@fairlead/api/ids';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Watched {
  id: string;
  own: boolean;
  itemId: string | null;
  orderNumber: number | null;
  title: string;
  task: string;
  hours: number;
  mechanics: string[];
  proposal: {
    p50: number;
    weight: number;
    reasons: { kind: string; words: string; otherTask: string | null }[];
  } | null;
  decisions: {
    verdict: string;
    hours: number | null;
    task: string | null;
    reason: string;
    decidedBy: string;
    proposed: string[];
  }[];
}
interface Odd {
  code?: string;
  field?: string;
  message?: string;
  model: { number: number; items: number; odd: number } | null;
  proposed: Watched[];
  decided: Watched[];
}
const WATCHED = `{ id own itemId orderId orderNumber title task completedOn registration model mechanics hours
  proposal { p10 p50 p90 weight reasons { kind words otherTask } } decisions { verdict hours task reason decidedAt decidedBy proposed } }`;
const ODD = `... on Refusal { code field message } ... on OddTimes { model { number items odd } proposed ${WATCHED} decided ${WATCHED} }`;
type Role = 'manager' | 'inspector' | 'mechanic' | 'front_desk';
const read = async (shop: TestShop, role: Role = 'manager') => {
  const { data, errors } = await shop.as<{ oddTimes: Odd }>(role, `{ oddTimes { ${ODD} } }`);
  if (!data) throw new Error(JSON.stringify(errors));
  return data.oddTimes;
};
const decide = async (shop: TestShop, input: Record<string, unknown>, role: Role = 'manager') => {
  const { data, errors } = await shop.as<{ decideTime: Odd }>(
    role,
    `mutation ($input: DecideTimeInput!) { decideTime(input: $input) { ${ODD} } }`,
    { input: { reason: 'The lamp was on all night', readDecisions: 0, ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.decideTime;
};
const usual = [2, 2.1, 1.9, 2.2, 1.8, 2, 2.05, 1.95, 2.15, 1.85, 2, 2.1, 1.9, 2.05, 1.95];

/** A shop with a history in which one time cannot be believed. */
async function oddShop() {
  const shop = await makeShop(api);
  await makeTask(shop, { key: 'hose', title: 'Replace hose' });
  await makeTask(shop, { key: 'belt', title: 'Replace belt' });
  await addJobs(shop, 'hose', [...usual, 31], { mechanic: 'Ann', registration: 'QQ-101' });
  await learn(shop);
  return shop;
}

/** An item of the shop's own, clocked in these stretches and done. */
async function clocked(
  shop: TestShop,
  {
    taskId,
    orderId,
    stretches,
  }: { taskId: string; orderId: string; stretches: [string, string][] },
) {
  const by = shop.people.mechanic.id;
  return shop.inside(async (tx) => {
    const count = await tx.workItem.count({ where: { orderId } });
    const item = await tx.workItem.create({
      data: { orderId, position: count + 1, taskId, title: `Item ${count + 1}`, jasc: '7810' },
    });
    for (const [from, to] of stretches)
      await tx.stretch.create({
        data: { itemId: item.id, personId: by, startedAt: new Date(from), endedAt: new Date(to) },
      });
    const at = new Date(stretches.at(-1)?.[1] ?? 0);
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'done', workDone: 'Done.', at, byId: by },
    });
    return item.id;
  });
}
const orderOf = (shop: TestShop) =>
  shop.inside((tx) =>
    tx.workOrder.create({ data: { aircraftId: shop.aircraftId, title: 'Work' } }),
  );
/** Somebody is in from 8:00 to 17:00, Monday to Friday. */
const openInTheWeek = (shop: TestShop) =>
  shop.inside((tx) =>
    tx.weeklyHours.createMany({
      data: [1, 2, 3, 4, 5].map((weekday) => ({
        shopId: shop.shopId,
        weekday,
        fromMinute: 480,
        toMinute: 1020,
      })),
    }),
  );

describe('proposed by the model', () => {
  test('a shop that has fitted nothing, and one where all is as usual, have nothing to decide', async () => {
    const shop = await makeShop(api);
    expect(await read(shop)).toEqual({ model: null, proposed: [], decided: [] });
    await addJobs(shop, 'hose', usual);
    await learn(shop);
    expect((await read(shop)).proposed).toEqual([]);
  });

  test('a time far from the rest is proposed with its reason; it counts less and is not left out', async () => {
    const shop = await oddShop();
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
    await openInTheWeek(shop);
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
    await openInTheWeek(shop);
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
      const shop = await oddShop();
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
    const shop = await oddShop();
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
    const shop = await oddShop();
    const [time] = (await read(shop)).proposed;
    const answer = await decide(shop, { timeId: time?.id, ...over });
    expect(answer).toMatchObject({ code: 'BAD_INPUT', field });
    expect(answer.message).toMatch(sentence);
    expect((await read(shop)).decided).toEqual([]);
  });

  test('who may: the manager and the inspector; of what: finished items of this shop', async () => {
    const shop = await oddShop();
    const [time] = (await read(shop)).proposed;
    for (const role of ['mechanic', 'front_desk'] as const) {
      expect(await read(shop, role)).toMatchObject({ code: 'FORBIDDEN' });
      expect(await decide(shop, { timeId: time?.id, verdict: 'stands' }, role)).toMatchObject({
        code: 'FORBIDDEN',
      });
    }
    const other = await oddShop();
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
