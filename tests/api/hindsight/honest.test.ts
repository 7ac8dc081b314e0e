/** The back-test over HTTP: computed by the worker, kept, scored beside the rivals; who may ask for it, and who may read what. */
import { jobTasks } from '@fairlead/api/jobs';
import { type Client, createClient } from '@fairlead/database';
import { createWorker, type Worker } from '@fairlead/database/jobs';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let client: Client;
let worker: Worker;
const startWorker = () =>
  createWorker({ appUrl: api.database.appUrl, tasks: jobTasks(client), pollInterval: 100 });
beforeAll(async () => {
  api = await startApi();
  client = createClient({ url: api.database.appUrl, poolSize: 3 });
  worker = await startWorker();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await worker.stop();
  await client.$disconnect();
  await api.stop();
});

interface Score {
  items: number;
  coverage: {
    items: number;
    within: number;
    low: number;
    high: number;
    verdict: string;
    sentence: string;
  } | null;
  loss: { p50: number; p80: number; p90: number };
  crps: number | null;
  tenths: number[];
  tenthsLow: number;
  tenthsHigh: number;
  rivals: {
    name: string;
    items: number;
    standing: string;
    crps: number | null;
    modelCrps: number | null;
    tenths: number[] | null;
    difference: number;
    differenceTo: number;
    loss: { p80: number };
    modelLoss: { p80: number };
  }[];
  verdict: string;
}
interface Slice {
  key: string;
  name: string;
  score: Score;
}
interface Honesty {
  newest: {
    number: number;
    modelNumber: number;
    askedBy: string | null;
    history: number;
    score: Score;
    months: { month: string; coverage: { items: number } | null; loss80: number | null }[];
    byTask: Slice[];
    byModel: Slice[];
    tooLittle: string | null;
  } | null;
  run: {
    state: string;
    askedBy: string | null;
    monthsAll: number;
    standsStill: boolean;
    problem: string;
    dueAt: string;
  } | null;
}
const SCORE = `{ items coverage { items within low high verdict sentence } loss { p50 p80 p90 } crps under80 under90 tenths tenthsLow tenthsHigh
  rivals { name items coverage standing crps modelCrps tenths difference differenceFrom differenceTo loss { p50 p80 p90 } modelLoss { p50 p80 p90 } } verdict }`;
const HONESTY = `{ newest { number modelNumber computedAt askedBy ms history tooLittle score ${SCORE}
  months { month coverage { items within low high verdict } loss80 } byTask { key name score ${SCORE} } byModel { key name score ${SCORE} } }
  run { state askedAt askedBy dueAt monthsDone monthsAll standsStill problem } }`;
const read = async (shop: TestShop, role: 'manager' | 'front_desk' | 'mechanic' = 'mechanic') => {
  const { data, errors } = await shop.as<{ hoursHonesty: Honesty }>(
    role,
    `{ hoursHonesty ${HONESTY} }`,
  );
  expect(errors).toBeUndefined();
  return data?.hoursHonesty as Honesty;
};
const askFor = async (shop: TestShop, role: 'manager' | 'inspector' = 'manager') => {
  const { data, errors } = await shop.as<{
    askBacktest: Honesty & { code?: string; message?: string };
  }>(
    role,
    `mutation { askBacktest { ... on Refusal { code message } ... on HoursHonesty { run { state askedBy } } } }`,
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.askBacktest;
};
const computed = (shop: TestShop, number = 1) =>
  vi.waitFor(
    async () => {
      const { newest } = await read(shop);
      expect(newest?.number).toBe(number);
      return newest as NonNullable<Honesty['newest']>;
    },
    { timeout: 60_000, interval: 300 },
  );

/** A year of jobs of two tasks by two mechanics on two models; nothing in May. */
async function livedAYear(shop: TestShop) {
  const hose = await makeTask(shop, { key: 'hose', title: 'Replace hose', standardHours: '2' });
  const belt = await makeTask(shop, { key: 'belt', title: 'Replace belt', standardHours: null });
  for (let month = 1; month <= 12; month += 1) {
    if (month === 5) continue;
    const on = new Date(Date.UTC(2025, month - 1, 10));
    const swing = (index: number) => 1 + 0.2 * Math.sin(month * 5 + index * 3);
    for (const [index, mechanic] of ['Ann', 'Bo'].entries()) {
      const model = `T-${index + 1}`;
      await addJobs(
        shop,
        hose.key,
        [2.4 * swing(index), 2.5 * swing(index + 2), 2.3 * swing(index + 5)],
        { mechanic, model, on },
      );
      await addJobs(shop, belt.key, [1.2 * swing(index + 1), 1.3 * swing(index + 4)], {
        mechanic,
        model,
        on,
      });
    }
  }
}

test('the worker computes it when the manager asks: scores, months, slices and the rivals beside', async () => {
  const shop = await makeShop(api);
  expect(await read(shop)).toEqual({ newest: null, run: null });
  await livedAYear(shop);
  const asked = await askFor(shop);
  expect(asked.code).toBeUndefined();
  const newest = await computed(shop);
  expect(newest).toMatchObject({
    askedBy: 'Test manager',
    history: 110,
    modelNumber: 0,
    tooLittle: null,
  });
  expect((await read(shop)).run).toBeNull();
  // Eleven months with ten jobs each; the first three are looked at only.
  const { score } = newest;
  expect(score.items).toBe(80);
  expect(score.tenths.reduce((sum, count) => sum + count, 0)).toBe(80);
  expect(score.tenthsLow).toBeCloseTo(8 - 1.959963984540054 * Math.sqrt(7.2), 9);
  expect(score.coverage?.items).toBe(80);
  expect(score.coverage?.sentence).toMatch(
    /^\d+ of 80 came out between P10 and P90; eight in ten should\./,
  );
  expect(score.crps).toBeGreaterThan(0);
  expect(score.loss.p50).toBeGreaterThan(0);
  expect(score.rivals.map(({ name }) => name)).toEqual([
    'the standard time',
    'the mean of past times',
    'the last time',
    'the median of past times',
    'the plain quantiles of past times',
  ]);
  // The standard says nothing of belts: half of the jobs and more are hoses.
  expect(score.rivals[0]?.items).toBe(48);
  for (const rival of score.rivals) {
    expect(rival.difference).toBeCloseTo(rival.modelLoss.p80 - rival.loss.p80, 9);
    expect(rival.standing === 'model_better').toBe(rival.differenceTo < 0);
    expect(rival.crps).toBeGreaterThan(0);
    expect(rival.modelCrps).toBeGreaterThan(0);
    expect(rival.tenths?.reduce((sum, count) => sum + count, 0)).toBeCloseTo(rival.items, 9);
  }
  expect(score.verdict).not.toContain('"');
  expect(newest.months.map(({ month }) => month)).toEqual([
    '2025-04',
    '2025-05',
    '2025-06',
    '2025-07',
    '2025-08',
    '2025-09',
    '2025-10',
    '2025-11',
    '2025-12',
  ]);
  expect(newest.months[1]).toEqual({ month: '2025-05', coverage: null, loss80: null });
  expect(newest.byTask.map(({ name, score: { items } }) => [name, items])).toEqual([
    ['Replace hose', 48],
    ['Replace belt', 32],
  ]);
  expect(newest.byModel.map(({ key, score: { items } }) => [key, items])).toEqual([
    ['T-1', 40],
    ['T-2', 40],
  ]);

  // By mechanic: the manager alone.
  const BY = `{ hoursByMechanic { ... on Refusal { code message } ... on BacktestByMechanic { slices { key score { items } } } } }`;
  const mine = await shop.as<{ hoursByMechanic: { slices: Slice[] } }>('manager', BY);
  expect(
    mine.data?.hoursByMechanic.slices.map(({ key, score: { items } }) => [key, items]),
  ).toEqual([
    ['Ann', 40],
    ['Bo', 40],
  ]);
  for (const role of ['front_desk', 'mechanic', 'inspector'] as const) {
    const { data } = await shop.as<{ hoursByMechanic: { code: string } }>(role, BY);
    expect(data?.hoursByMechanic).toMatchObject({
      code: 'FORBIDDEN',
      message: expect.stringContaining('This is for the manager'),
    });
  }
  // Kept for good, and of this shop alone.
  await expect(
    shop.inside((tx) => tx.hoursBacktest.updateMany({ data: { scored: 1 } })),
  ).rejects.toThrow();
  await expect(shop.inside((tx) => tx.hoursBacktest.deleteMany())).rejects.toThrow();
  expect((await read(await makeShop(api))).newest).toBeNull();
  expect(
    (await shop.as(null, '{ hoursHonesty { newest { number } } }')).errors?.[0]?.extensions.code,
  ).toBe('SIGN_IN_NEEDED');
}, 120_000);

test('after a fit it is asked for by itself; again only for another model, and when the interval is over', async () => {
  const shop = await makeShop(api);
  await addJobs(shop, 'tighten', [4, 4.2, 3.9, 4.1]);
  const { askRefit } = await import('@fairlead/api/hindsight/index');
  const refit = () => shop.inside((tx) => askRefit(tx, new Date(), { atOnce: true }));
  await refit();
  const newest = await computed(shop);
  expect(newest).toMatchObject({
    modelNumber: 1,
    askedBy: null,
    score: { items: 0, coverage: null, crps: null },
  });
  expect(newest.tooLittle).toBe(
    '4 past jobs are known: needed are 20 in the months before the one that is predicted, and three such months.',
  );
  expect(newest.score.verdict).toMatch(/^Too few past jobs/);
  expect(newest.months).toEqual([]);
  // Learned something else: it waits for the interval.
  await addJobs(shop, 'tighten', [9, 9.5, 8.8]);
  await refit();
  const { run } = await vi.waitFor(
    async () => {
      const found = await read(shop);
      expect(found.run?.state).toBe('waiting');
      return found as Honesty & { run: NonNullable<Honesty['run']> };
    },
    { timeout: 30_000, interval: 300 },
  );
  expect(run.askedBy).toBeNull();
  expect(new Date(run.dueAt).getTime() - Date.now()).toBeGreaterThan(5 * 3_600_000);
  // The manager need not wait.
  await askFor(shop);
  expect(await computed(shop, 2)).toMatchObject({
    modelNumber: 2,
    askedBy: 'Test manager',
    history: 7,
  });
}, 120_000);

test('only the manager asks; while it runs nobody asks again, until it stands still; a failure is told', async () => {
  const shop = await makeShop(api);
  expect(await askFor(shop, 'inspector')).toMatchObject({ code: 'FORBIDDEN' });
  const long = new Date(Date.now() - 3_600_000);
  const running = (movedAt: Date, problem = '') =>
    shop.inside(async (tx) => {
      await tx.backtestRun.deleteMany();
      await tx.backtestRun.create({
        data: {
          askedAt: long,
          dueAt: long,
          startedAt: long,
          movedAt,
          monthsDone: 3,
          monthsAll: 12,
          problem,
        },
      });
    });
  await running(new Date());
  expect((await read(shop)).run).toMatchObject({
    state: 'running',
    standsStill: false,
    monthsAll: 12,
  });
  expect(await askFor(shop)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringMatching(
      /^It is being computed since .* UTC, month 3 of 12: wait for it\.$/,
    ),
  });
  await running(new Date(), 'It went wrong on our side.');
  expect((await read(shop)).run).toMatchObject({
    state: 'failed',
    problem: 'It went wrong on our side.',
  });
  await running(long);
  expect((await read(shop)).run).toMatchObject({ state: 'running', standsStill: true });
  expect((await askFor(shop)).code).toBeUndefined();
  expect((await computed(shop)).tooLittle).toMatch(/^0 past jobs are known/);
});

test('one that was kept before rules were scored whole still reads; what was not scored then is null', async () => {
  const shop = await makeShop(api);
  const losses = { p50: 0.3, p80: 0.2, p90: 0.1 };
  const score = {
    items: 12,
    ...{ coverage: 0.75, under80: 0.8, under90: 0.9, pinball: losses, crps: 0.4 },
    pit: [2, 1, 1, 1, 1, 1, 1, 1, 1, 2],
    rivals: [
      {
        ...{ rival: 'mean', items: 12, coverage: 0.7, pinball: losses, model: losses },
        difference80: { mean: -0.1, from: -0.2, to: -0.05 },
      },
    ],
    verdict: 'The model did better than each plain rule.',
  };
  await shop.inside((tx) =>
    tx.hoursBacktest.create({
      data: {
        ...{ modelNumber: 1, version: 'earlier', items: 40, scored: 12, ms: 1 },
        computedAt: new Date(),
        result: { score, months: [], byTask: [], byMechanic: [], byModel: [] },
      },
    }),
  );
  const [rival] = (await read(shop)).newest?.score.rivals ?? [];
  expect(rival).toMatchObject({
    ...{ name: 'the mean of past times', items: 12, standing: 'model_better', loss: losses },
    ...{ crps: null, modelCrps: null, tenths: null },
  });
});

test('reading costs as many statements for many tasks as for few', async () => {
  const statementsFor = async (tasks: number) => {
    const shop = await makeShop(api);
    const score = {
      items: 1,
      coverage: 1,
      under80: 1,
      under90: 1,
      pinball: { p50: 1, p80: 1, p90: 1 },
      crps: 1,
      pit: [1, 0, 0, 0, 0, 0, 0, 0, 0, 0],
      rivals: [],
      verdict: '',
    };
    const slices = Array.from({ length: tasks }, (_, index) => ({
      key: `task ${index}`,
      ...score,
    }));
    await shop.inside((tx) =>
      tx.hoursBacktest.create({
        data: {
          modelNumber: 1,
          version: 'x',
          items: 1,
          scored: 1,
          computedAt: new Date(),
          ms: 1,
          result: { score, months: [], byTask: slices, byMechanic: slices, byModel: slices },
        },
      }),
    );
    await read(shop);
    const sent = await api.statementsOf(() => read(shop));
    return sent.length;
  };
  expect(await statementsFor(60)).toBe(await statementsFor(2));
});
