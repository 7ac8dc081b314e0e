/** What was quoted against what was clocked, over HTTP: figures, filters, the order of the misses, and its cost. */
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Done {
  taskId?: string;
  title?: string;
  hours: number;
  /** When it was finished; midday UTC unless it says a time. */
  on: string;
  note?: string;
  reopened?: boolean;
}

/** Items quoted with P10 1, P50 2, P80 3 and P90 4 hours, and what the clock said of each. */
async function finish(shop: TestShop, items: readonly Done[]): Promise<void> {
  const contact = shop.contactId;
  const by = shop.people.mechanic.id;
  await shop.inside(async (tx) => {
    const quote = await tx.quote.create({
      data: { aircraftId: shop.aircraftId, contactId: contact, title: 'Work' },
    });
    const hours = { hoursP10: '1', hoursP50: '2', hoursMean: '2.2', hoursP80: '3', hoursP90: '4' };
    const minor = { lowMinor: 100, likelyMinor: 200, p80Minor: 300, highMinor: 400 };
    const revision = await tx.quoteRevision.create({
      data: {
        quoteId: quote.id,
        revision: 1,
        expiresOn: new Date('2027-01-01'),
        currency: 'USD',
        taxMinor: 0,
        ...hours,
        ...minor,
      },
    });
    const order = await tx.workOrder.create({
      data: { aircraftId: shop.aircraftId, title: 'Work' },
    });
    for (const [index, item] of items.entries()) {
      const taskId = item.taskId ?? null;
      const title = item.title ?? `Item ${index}`;
      const line = await tx.quoteLine.create({
        data: {
          revisionId: revision.id,
          position: index + 1,
          pricing: 'time_and_materials',
          taskId,
          title,
          category: 'labour',
          taxCode: 'S',
          taxRate: '0',
          quantity: '1',
          unitPrice: '95',
          ...hours,
          ...minor,
        },
      });
      const made = await tx.workItem.create({
        data: {
          orderId: order.id,
          position: index + 1,
          taskId,
          quoteLineId: line.id,
          title,
          jasc: '7810',
        },
      });
      const end = new Date(item.on.includes('T') ? item.on : `${item.on}T12:00:00Z`);
      // One person is on one item at a time.
      const start = new Date(Date.UTC(1990, 0, 1) + index * 50 * 3_600_000);
      await tx.stretch.create({
        data: {
          itemId: made.id,
          personId: by,
          startedAt: start,
          endedAt: new Date(start.getTime() + item.hours * 3_600_000),
        },
      });
      await tx.itemEvent.create({
        data: {
          itemId: made.id,
          kind: 'done',
          workDone: 'Done.',
          note: item.note ?? '',
          at: end,
          byId: by,
        },
      });
      if (item.reopened)
        await tx.itemEvent.create({
          data: {
            itemId: made.id,
            kind: 'reopened',
            at: new Date(end.getTime() + 60_000),
            byId: by,
          },
        });
    }
  });
}

interface Coverage {
  items: number;
  within: number;
  under: number;
  over: number;
  low: number;
  high: number;
  verdict: string;
  sentence: string;
}
interface Group {
  key: string;
  name: string;
  coverage: { items: number; within: number };
  ratio: { median: number };
}
interface Accuracy {
  coverage: Coverage | null;
  ratio: { median: number; low: number; high: number } | null;
  months: { month: string; coverage: { items: number; within: number } | null }[];
  byTask: Group[];
  byModel: Group[];
  points: { actual: number }[];
  misses: {
    edges: { node: { title: string; actual: number; reason: string; registration: string } }[];
    pageInfo: { hasNextPage: boolean; endCursor: string };
  };
  tasks: { key: string; name: string }[];
  models: { key: string; name: string }[];
  everyMonth: string[];
}
const QUERY = `query($filter: AccuracyFilter, $first: Int, $after: String) { hoursAccuracy(filter: $filter) {
  coverage { items within under over low high verdict sentence } ratio { median low high }
  months { month coverage { items within } }
  byTask { key name coverage { items within } ratio { median } } byModel { key name coverage { items within } ratio { median } }
  points { p10 p50 p90 actual }
  misses(first: $first, after: $after) { edges { node { itemId orderId title orderNumber registration model doneAt p10 p50 p80 p90 actual reason } } pageInfo { hasNextPage endCursor } }
  tasks { key name } models { key name } everyMonth } }`;
async function read(shop: TestShop, variables: Record<string, unknown> = {}): Promise<Accuracy> {
  const { data, errors } = await shop.as<{ hoursAccuracy: Accuracy }>('manager', QUERY, variables);
  expect(errors).toBeUndefined();
  return data?.hoursAccuracy as Accuracy;
}

test('a shop that has finished nothing has nothing to say', async () => {
  const shop = await makeShop(api);
  expect(await read(shop)).toEqual({
    coverage: null,
    ratio: null,
    months: [],
    byTask: [],
    byModel: [],
    points: [],
    misses: { edges: [], pageInfo: { hasNextPage: false, endCursor: expect.anything() } },
    tasks: [],
    models: [],
    everyMonth: [],
  });
});

test('coverage, ratios, months by the shop’s clock, tasks, models, and the biggest misses first with their reason', async () => {
  // 2026-02-01 at 04:30 in UTC is still January in the shop.
  const shop = await makeShop(api, { timeZone: 'America/New_York' });
  const hose = await makeTask(shop, { key: 'hose', title: 'Replace hose' });
  const belt = await makeTask(shop, { key: 'belt', title: 'Replace belt' });
  await finish(shop, [
    { taskId: hose.id, title: 'on the edge', hours: 1, on: '2025-11-10' },
    { taskId: hose.id, title: 'under', hours: 0.5, on: '2025-11-11' },
    { taskId: hose.id, title: 'as quoted', hours: 2, on: '2026-02-01T04:30:00Z' },
    {
      taskId: belt.id,
      title: 'far over',
      hours: 9,
      on: '2026-02-10',
      note: 'Seized bolt drilled out',
    },
    { title: 'a correction', hours: 4, on: '2026-02-11' },
    { taskId: belt.id, title: 'opened again', hours: 30, on: '2026-02-12', reopened: true },
  ]);
  const all = await read(shop);
  expect(all.coverage).toMatchObject({
    items: 5,
    within: 3,
    under: 1,
    over: 1,
    verdict: 'too_few',
  });
  // scipy 1.17.1: binomtest(3, 5).proportion_ci(0.95, 'wilson').
  expect(all.coverage?.low).toBeCloseTo(0.23072428127601297, 12);
  expect(all.coverage?.high).toBeCloseTo(0.8823792257673521, 12);
  expect(all.coverage?.sentence).toContain('So few say little');
  // 0.25, 0.5, 1, 2 and 4.5 times the quoted P50.
  expect(all.ratio).toEqual({ median: 1, low: 0.5, high: 2 });
  expect(
    all.months.map(({ month, coverage }) => [month, coverage?.within, coverage?.items]),
  ).toEqual([
    ['2025-11', 1, 2],
    ['2025-12', undefined, undefined],
    ['2026-01', 1, 1],
    ['2026-02', 1, 2],
  ]);
  expect(
    all.byTask.map(({ name, coverage, ratio }) => [name, coverage.items, ratio.median]),
  ).toEqual([
    ['Replace hose', 3, 0.5],
    ['Correction of a finding, no task', 1, 2],
    ['Replace belt', 1, 4.5],
  ]);
  expect(all.byModel).toMatchObject([
    { key: 'Testmaker T-2', name: 'Testmaker T-2', coverage: { items: 5 } },
  ]);
  expect(all.misses.edges.map(({ node }) => [node.title, node.reason])).toEqual([
    ['far over', 'Seized bolt drilled out'],
    ['under', ''],
    ['a correction', ''],
    ['on the edge', ''],
    ['as quoted', ''],
  ]);
  expect(all.points).toHaveLength(5);
  expect(all.everyMonth).toEqual(['2025-11', '2026-01', '2026-02']);

  const narrowed = await read(shop, { filter: { task: 'hose', from: '2026-01', to: '2026-02' } });
  expect([narrowed.coverage?.items, narrowed.points.length]).toEqual([1, 1]);
  // What can be chosen stays what there is.
  expect(narrowed.tasks.map(({ key }) => key)).toEqual(['', 'belt', 'hose']);
  expect((await read(shop, { filter: { task: '' } })).coverage?.items).toBe(1);
  expect((await read(shop, { filter: { model: 'None of ours' } })).coverage).toBeNull();
  expect(await read(await makeShop(api))).toMatchObject({ coverage: null, tasks: [] });
});

test.each([
  [{ from: '2026-13' }, /from is "2026-13": needed is a year and month/],
  [{ to: 'march' }, /to is "march"/],
  [{ from: '2026-03', to: '2026-02' }, /no earlier/],
])('a span that is none is refused: %j', async (filter, sentence) => {
  const shop = await makeShop(api);
  const { errors } = await shop.as('manager', QUERY, { filter });
  expect(errors?.[0]?.extensions.code).toBe('BAD_INPUT');
  expect(errors?.[0]?.message).toMatch(sentence);
});

test('long lists come a page at a time, in as many statements for 60 items as for 6', async () => {
  const statementsFor = async (count: number) => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: `many-${randomUUID().slice(0, 4)}` });
    await finish(
      shop,
      Array.from({ length: count }, (_, index) => ({
        taskId: task.id,
        hours: 0.5 + (index * 7) / count,
        on: `2026-0${1 + (index % 5)}-10`,
      })),
    );
    await shop.as('manager', '{ viewer { person { name } } }');
    let found: Accuracy | undefined;
    const sent = await api.statementsOf(async () => {
      found = await read(shop, { first: 12 });
    });
    return { shop, found, statements: sent.length };
  };
  const few = await statementsFor(6);
  const many = await statementsFor(60);
  expect(many.statements).toBe(few.statements);
  expect(many.found?.coverage?.items).toBe(60);
  expect(many.found?.misses.edges).toHaveLength(12);
  const cursor = many.found?.misses.pageInfo.endCursor;
  const next = await read(many.shop, { first: 100, after: cursor });
  expect(next.misses.edges).toHaveLength(48);
  expect(next.misses.pageInfo.hasNextPage).toBe(false);
  const { errors } = await many.shop.as('manager', QUERY, { first: 1000 });
  expect(errors?.[0]?.message ?? '').not.toMatch(/wrong on our side/);
});
