/** The import and the reads of the Hours sheet cost the same number of statements for few rows and for many. */
import { importHistory } from '@fairlead/api/hindsight/import-history';
import { createClient, inShop } from '@fairlead/database';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const header =
  'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const fileOf = (rows: number) =>
  `${header}\n${Array.from({ length: rows }, (_, index) => `2026-02-0${1 + (index % 9)},task-${index % 7},7810,2,T-2,QQ-101,Ann,${1 + index / 1000},${index % 10 === 9 ? 1 : 0},${60 + (index % 300)},,,,,,\n`).join('')}`;

test('importing 100 rows and 1,900 takes the same statements; ten times as many a few more', async () => {
  const shop = await makeShop(api);
  const statements: string[] = [];
  const client = createClient({
    url: api.database.appUrl,
    poolSize: 1,
    onQuery: (sql) => statements.push(sql),
  });
  const counted = async (rows: number) => {
    statements.length = 0;
    const input = {
      file: {
        name: 'x.csv',
        bytes: new TextEncoder().encode(fileOf(rows).replaceAll('task-', `of${rows}-`)),
      },
      today: '2026-06-30',
      skipBad: false,
    };
    const { added } = await importHistory(
      (work) =>
        inShop(client, { shopId: shop.shopId, personId: null, requestId: shop.shopId }, work, {
          timeoutMs: 60_000,
        }),
      input,
    );
    expect(added).toBe(rows);
    return statements.length;
  };
  const few = await counted(100);
  expect(await counted(1900)).toBe(few);
  expect(await counted(19_000)).toBeLessThanOrEqual(few + 9);
  await client.$disconnect();
});

const hoursSheet = `{ hindsight {
  byTask { task title standardHours jobs lowerBounds medianHours lastOn }
  quotedAgainstActual { itemId title p10 p50 p80 p90 actual within }
  jobs(first: 100) { edges { node { completedOn task title registration model hours lowerBound } } pageInfo { hasNextPage } }
  imports(first: 10) { edges { node { id fileName rows importedAt } } }
} }`;
interface HoursSheet {
  hindsight: {
    byTask: {
      task: string;
      title: string | null;
      jobs: number;
      lowerBounds: number;
      medianHours: number | null;
    }[];
    quotedAgainstActual: { actual: number; within: boolean }[];
    jobs: {
      edges: { node: { task: string; hours: number } }[];
      pageInfo: { hasNextPage: boolean };
    };
    imports: { edges: { node: { fileName: string; rows: number } }[] };
  };
}

test('the Hours sheet counts past jobs by task, in as many statements for 200 rows as for 20', async () => {
  const read = async (rows: number) => {
    const shop = await makeShop(api);
    await makeTask(shop, { key: 'task-0', title: 'Task nought' });
    await importHistory(shop.inside, {
      file: { name: 'past.csv', bytes: new TextEncoder().encode(fileOf(rows)) },
      today: '2026-06-30',
      skipBad: false,
    });
    await shop.as('manager', '{ viewer { person { name } } }');
    let answer: Awaited<ReturnType<typeof shop.as<HoursSheet>>> | undefined;
    const sent = await api.statementsOf(async () => {
      answer = await shop.as<HoursSheet>('manager', hoursSheet);
    });
    expect(answer?.errors).toBeUndefined();
    return { shop, hindsight: answer?.data?.hindsight, statements: sent.length };
  };
  const few = await read(20);
  const many = await read(200);
  expect(many.statements).toBe(few.statements);
  const first = many.hindsight?.byTask.find(({ task }) => task === 'task-0');
  // Rows 0, 7, 14 … 196: 29 of 200; those whose index ends in 9 (49, 119, 189) are lower bounds.
  expect(first).toMatchObject({ title: 'Task nought', jobs: 26, lowerBounds: 3 });
  expect(many.hindsight?.byTask).toHaveLength(7);
  expect(many.hindsight?.jobs.edges).toHaveLength(100);
  expect(many.hindsight?.jobs.pageInfo.hasNextPage).toBe(true);
  expect(many.hindsight?.imports.edges.map(({ node }) => [node.fileName, node.rows])).toEqual([
    ['past.csv', 200],
  ]);
  expect(many.hindsight?.quotedAgainstActual).toEqual([]);

  const only = await few.shop.as<HoursSheet>(
    'mechanic',
    '{ hindsight { jobs(first: 50, task: "task-1") { edges { node { task hours } } pageInfo { hasNextPage } } } }',
  );
  expect(new Set(only.data?.hindsight.jobs.edges.map(({ node }) => node.task))).toEqual(
    new Set(['task-1']),
  );
  const nobody = await few.shop.as(null, hoursSheet);
  expect(nobody.errors?.[0]?.extensions.code).toBe('SIGN_IN_NEEDED');
});
