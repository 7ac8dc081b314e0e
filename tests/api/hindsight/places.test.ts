/** What places cost, over HTTP: factors before and after, the manager's table, who may save it, and what is refused. */
import { jobTasks } from '@fairlead/api/jobs';
import { type Client, createClient } from '@fairlead/database';
import { createWorker, type Worker } from '@fairlead/database/jobs';
import { ACCESS_PRIORS } from '@fairlead/labour';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let client: Client;
let worker: Worker;
beforeAll(async () => {
  api = await startApi();
  client = createClient({ url: api.database.appUrl, poolSize: 3 });
  worker = await createWorker({
    appUrl: api.database.appUrl,
    tasks: jobTasks(client),
    pollInterval: 100,
  });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await worker.stop();
  await client.$disconnect();
  await api.stop();
});

interface Range {
  factor: number;
  from: number;
  to: number;
}
interface Step {
  condition: string;
  step: number;
  factor: number;
  giveOrTake: number;
}
interface Table {
  revision: number;
  savedBy: string | null;
  savedAt: string | null;
  reason: string;
  changes: string[];
  steps: (Step & { words: string; conditionWords: string })[];
}
interface Places {
  model: { number: number; items: number; settled: boolean; tableRevision: number } | null;
  factors: {
    condition: string;
    words: string;
    prior: Range;
    posterior: Range;
    items: number;
    sentence: string;
  }[];
  table: Table;
  revisions: Table[];
  sources: string[];
}
const TABLE = `{ revision savedBy savedAt reason changes steps { condition conditionWords step words factor giveOrTake } }`;
const PLACES = `{ model { number fittedAt version items lowerBounds odd settled fitMs tableRevision }
  factors { condition conditionWords words prior { factor from to } posterior { factor from to } items sentence }
  table ${TABLE} revisions ${TABLE} sources }`;
const places = async (shop: TestShop, role: 'mechanic' | 'manager' = 'mechanic') => {
  const { data, errors } = await shop.as<{ hoursPlaces: Places }>(
    role,
    `{ hoursPlaces ${PLACES} }`,
  );
  expect(errors).toBeUndefined();
  return data?.hoursPlaces as Places;
};
const SAVE = `mutation ($input: SaveAccessPriorsInput!) { saveAccessPriors(input: $input) { ... on Refusal { code field message } ... on HoursPlaces ${PLACES} } }`;
type Saved = Places & { code?: string; field?: string; message?: string };
const save = async (
  shop: TestShop,
  input: Record<string, unknown>,
  role: 'manager' | 'inspector' = 'manager',
) => {
  const { data, errors } = await shop.as<{ saveAccessPriors: Saved }>(role, SAVE, { input });
  if (!data) throw new Error(JSON.stringify(errors));
  return data.saveAccessPriors;
};
const given = ({ steps }: Table): Step[] =>
  steps.map(({ condition, step, factor, giveOrTake }) => ({ condition, step, factor, giveOrTake }));
const withStep = (table: Table, condition: string, step: number, over: Partial<Step>): Step[] =>
  given(table).map((each) =>
    each.condition === condition && each.step === step ? { ...each, ...over } : each,
  );

describe('the factors', () => {
  test('before any job they are the program’s own table, with where it comes from', async () => {
    const shop = await makeShop(api);
    const found = await places(shop);
    expect(found.model).toBeNull();
    expect(found.table).toMatchObject({ revision: 0, savedBy: null, savedAt: null, reason: '' });
    expect(found.revisions).toHaveLength(1);
    expect(found.factors).toHaveLength(12);
    for (const { prior, posterior } of found.factors) {
      expect(posterior.factor).toBeCloseTo(prior.factor, 9);
      expect(prior.factor).toBeGreaterThan(1);
    }
    // labour-model.md: clearance under 120 mm 0.40 on the log scale, three increments of s.d. 0.15.
    const narrow = found.factors.find(({ words }) => words.startsWith('under 120 mm'));
    expect(narrow?.prior.factor).toBeCloseTo(Math.exp(0.4), 9);
    expect(narrow?.prior.to).toBeCloseTo(
      Math.exp(0.4 + 1.6448536269514722 * 0.15 * Math.sqrt(3)),
      9,
    );
    expect(narrow?.items).toBe(0);
    expect(narrow?.sentence).toBe('×1.49 is believed; no job has told otherwise yet.');
    expect(found.sources.join(' ')).toMatch(/MIL-HDBK-472[\s\S]*from memory[\s\S]*no source/);
  });

  test('the shop’s own jobs move them, and the table that the model began from is named', async () => {
    const shop = await makeShop(api);
    // Without a standard time: one would be as installed, and its place would tell nothing.
    const task = await makeTask(shop, { key: 'pin', standardHours: null });
    await addJobs(shop, task.key, [2, 2.1, 1.9, 2, 2.05, 1.95], { access: { held: false } });
    await addJobs(shop, task.key, [5, 5.2, 4.8, 5.1, 4.9, 5], { access: { held: true } });
    await learn(shop);
    const found = await places(shop);
    expect(found.model).toMatchObject({ number: 1, items: 12, tableRevision: 0 });
    const held = found.factors.find(({ condition }) => condition === 'held');
    expect(held?.items).toBe(6);
    expect(held?.posterior.factor).toBeGreaterThan(1.5);
    expect((held?.posterior.to ?? 0) / (held?.posterior.from ?? 1)).toBeLessThan(
      (held?.prior.to ?? 0) / (held?.prior.from ?? 1),
    );
    expect(held?.sentence).toMatch(/^×1\.20 was believed; 6 jobs .* make it ×/);
  });

  test('reading costs as many statements after many jobs and revisions as before', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: 'pin' });
    await addJobs(shop, task.key, [2, 2.1], { access: { held: true } });
    await learn(shop);
    await places(shop);
    const few = await api.statementsOf(() => places(shop));
    await addJobs(
      shop,
      task.key,
      Array.from({ length: 60 }, (_, index) => 2 + index / 50),
    );
    await learn(shop);
    const { table } = await places(shop);
    await shop.inside((tx) =>
      tx.hoursPriors.createMany({
        data: Array.from({ length: 60 }, () => ({
          access: structuredClone(ACCESS_PRIORS) as object,
          note: 'Tried',
          savedById: shop.people.manager.id,
        })),
      }),
    );
    expect(table.revision).toBe(0);
    const many = await api.statementsOf(() => places(shop));
    expect(many.length).toBe(few.length);
    expect((await places(shop)).revisions).toHaveLength(50);
  });
});

describe('the manager’s table', () => {
  test('is saved as a revision with who, when and why; a refit begins at once and the factors follow', async () => {
    const shop = await makeShop(api);
    const task = await makeTask(shop, { key: 'pin' });
    await addJobs(shop, task.key, [2, 2.1, 1.9]);
    await learn(shop); // a fit just now: others would wait ten minutes
    const { table } = await places(shop);
    const steps = withStep(table, 'posture', 1, { factor: 1.26, giveOrTake: 1.1 });
    const saved = await save(shop, { readRevision: 0, steps, reason: ' Measured here in May ' });
    expect(saved.table).toMatchObject({
      revision: 1,
      savedBy: 'Test manager',
      reason: 'Measured here in May',
      changes: [
        'Posture, bent or kneeling: ×1.05 give or take ×1.14, now ×1.26 give or take ×1.10',
      ],
    });
    expect(saved.table.savedAt).not.toBeNull();
    expect(saved.revisions.map(({ revision }) => revision)).toEqual([1, 0]);
    const kept = saved.table.steps.find(({ condition }) => condition === 'posture');
    expect(kept?.factor).toBeCloseTo(1.26, 12);
    expect(kept?.giveOrTake).toBeCloseTo(1.1, 12);
    // What was left alone is as it was, to the last digits.
    const others = (of: Table) =>
      of.steps.filter(({ condition }) => condition !== 'posture').map(({ factor }) => factor);
    for (const [index, factor] of others(saved.table).entries())
      expect(factor).toBeCloseTo(others(table)[index] ?? 0, 12);
    await vi.waitFor(
      async () => expect((await places(shop)).model).toMatchObject({ tableRevision: 1 }),
      { timeout: 30_000, interval: 200 },
    );
    const { factors } = await places(shop);
    const bent = factors.find(({ words }) => words === 'bent or kneeling');
    expect(bent?.prior.factor).toBeCloseTo(1.26, 9);
    expect(bent?.prior.from).toBeCloseTo(1.26 / 1.1, 9);
    expect(bent?.prior.to).toBeCloseTo(1.26 * 1.1, 9);
    // Append-only, and in the audit.
    await expect(
      shop.inside((tx) => tx.hoursPriors.updateMany({ data: { note: 'other' } })),
    ).rejects.toThrow();
    const audit = await shop.inside((tx) =>
      tx.audit.findMany({ where: { tableName: 'hours_priors' } }),
    );
    expect(audit.map(({ personId }) => personId)).toEqual([shop.people.manager.id]);
  });

  test('of two managers at once the second is told who came first, and nothing of it is saved', async () => {
    const shop = await makeShop(api);
    const { table } = await places(shop);
    const answers = await Promise.all(
      [1.3, 1.4].map((factor) =>
        save(shop, {
          readRevision: 0,
          steps: withStep(table, 'reach', 1, { factor }),
          reason: 'Arms are short here',
        }),
      ),
    );
    const refused = answers.filter(({ code }) => code);
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ code: 'CONFLICT', field: 'readRevision' });
    expect(refused[0]?.message).toMatch(
      /^Revision 1 was saved by Test manager on \d{4}-.* UTC, after you opened the table \(you read revision 0\)\. Nothing of yours is saved/,
    );
    expect((await places(shop)).revisions).toHaveLength(2);
    expect(
      await save(shop, { readRevision: 7, steps: given(table), reason: 'From the future' }),
    ).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('newest is 1') });
  });

  test.each([
    ['a factor below 1', { factor: 0.9 }, /factor is ×0\.9; needed is ×1 to ×10, since a worse/],
    ['a negative factor', { factor: -2 }, /factor is ×-2; needed is ×1 to ×10/],
    ['a factor of 1e9', { factor: 1e9 }, /factor is ×1000000000; needed is ×1 to ×10/],
    ['no doubt at all', { giveOrTake: 1 }, /give or take is ×1; needed is ×1\.01 to ×10/],
    ['a doubt without end', { giveOrTake: 1e300 }, /give or take is ×1e\+300; needed/],
  ])('%s is refused with what is needed', async (_, over, sentence) => {
    const shop = await makeShop(api);
    const { table } = await places(shop);
    const answer = await save(shop, {
      readRevision: 0,
      steps: withStep(table, 'sight', 2, over),
      reason: 'Tried out',
    });
    expect(answer).toMatchObject({ code: 'BAD_INPUT', field: 'steps' });
    expect(answer.message).toMatch(/^Sight, done by feel: /);
    expect(answer.message).toMatch(sentence);
    expect((await places(shop)).table.revision).toBe(0);
  });

  test('a missing condition, one twice, a step that is none, no change, no reason and what is no number are refused', async () => {
    const shop = await makeShop(api);
    const { table } = await places(shop);
    const changed = withStep(table, 'held', 1, { factor: 2 });
    const say = async (steps: unknown, reason = 'Tried out') =>
      (await save(shop, { readRevision: 0, steps, reason })).message;
    expect(await say(changed.filter(({ condition }) => condition !== 'held'))).toBe(
      'Held while fastening, held against spring, cam or weight: is missing; needed is every step of every condition.',
    );
    expect(await say([...changed, ...changed.slice(0, 1)])).toMatch(
      /is given 2 times; needed is once/,
    );
    expect(await say([...changed, { condition: 'held', step: 2, factor: 1, giveOrTake: 2 }])).toBe(
      'Held while fastening has no step 2: needed are its steps from 1 to 1.',
    );
    expect(await say([])).toMatch(/is missing/);
    expect(await say(given(table))).toMatch(/^Nothing was changed/);
    expect(await say(changed, 'x')).toBe('reason has 1 characters: needed are 3 to 2000.');
    expect(await say(changed, 'x'.repeat(2001))).toMatch(/2001 characters/);
    for (const factor of ['NaN', null, 'much'] as const) {
      const { errors } = await shop.as('manager', SAVE, {
        input: {
          readRevision: 0,
          reason: 'Tried out',
          steps: withStep(table, 'held', 1, { factor: factor as never }),
        },
      });
      expect(errors?.[0]?.message).toMatch(/Float/);
      expect(errors?.[0]?.extensions.code).toBe('BAD_USER_INPUT');
    }
    expect((await places(shop)).table.revision).toBe(0);
  });

  test('only the manager saves, everyone reads, nobody outside does, and each shop has its own', async () => {
    const shop = await makeShop(api);
    const { table } = await places(shop);
    const steps = withStep(table, 'held', 1, { factor: 2 });
    const input = { readRevision: 0, steps, reason: 'Springs are strong' };
    expect(await save(shop, input, 'inspector')).toMatchObject({
      code: 'FORBIDDEN',
      message: expect.stringContaining('This is for the manager'),
    });
    expect((await save(shop, input)).table.revision).toBe(1);
    expect((await places(await makeShop(api))).table.revision).toBe(0);
    const nobody = await shop.as(null, '{ hoursPlaces { table { revision } } }');
    expect(nobody.errors?.[0]?.extensions.code).toBe('SIGN_IN_NEEDED');
  });
});
