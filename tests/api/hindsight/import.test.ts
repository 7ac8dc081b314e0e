/** A shop's file of past jobs goes in whole or not at all, and never twice. */
import { type ImportedHistory, importHistory } from '@fairlead/api/hindsight/import-history';
import { writeRefused } from '@fairlead/labour';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

const TODAY = '2026-06-30';
const HEADER =
  'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const row = (task: string, hours = '2.5') =>
  `2026-03-09,${task},7810,2.0,Testmaker T-2,QQ-101,Ann Other:0.6;Bo Third:0.4,${hours},0,95,mirror,bent,arm,40,0,3`;
const file = (...lines: string[]) => `${[HEADER, ...lines].join('\n')}\n`;

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const take = (
  shop: TestShop,
  text: string | Uint8Array,
  over: Partial<Parameters<typeof importHistory>[1]> = {},
): Promise<ImportedHistory> =>
  importHistory(shop.inside, {
    file: {
      name: 'jobs.csv',
      bytes: typeof text === 'string' ? new TextEncoder().encode(text) : text,
    },
    today: TODAY,
    skipBad: false,
    ...over,
  });

const counts = (shop: TestShop) =>
  shop.inside(async (tx) => [
    await tx.historyImport.count(),
    await tx.historyItem.count(),
    await tx.access.count(),
  ]);

describe('a whole file', () => {
  test('every column arrives as it was written, and identical places are kept once', async () => {
    const shop = await makeShop(api);
    const bare = '2026-03-10,oil,,,,,,0.75,1,,,,,,,';
    const done = await take(shop, file(row('exhaust'), row('exhaust', '3.25'), bare));
    expect([done.taken, done.added, done.already]).toEqual([true, 3, 0]);
    expect(await counts(shop)).toEqual([1, 3, 1]);

    const items = await shop.inside((tx) =>
      tx.historyItem.findMany({
        orderBy: { hours: 'asc' },
        include: { access: true, import: true },
      }),
    );
    expect(items[0]).toMatchObject({
      task: 'oil',
      jasc: null,
      standardHours: null,
      model: '',
      registration: '',
      mechanics: [],
      hours: 0.75,
      censored: true,
      access: null,
    });
    expect(items[1]).toMatchObject({
      completedOn: new Date('2026-03-09T00:00:00Z'),
      task: 'exhaust',
      jasc: '7810',
      model: 'Testmaker T-2',
      registration: 'QQ-101',
      mechanics: [
        { name: 'Ann Other', share: 0.6 },
        { name: 'Bo Third', share: 0.4 },
      ],
      hours: 2.5,
      censored: false,
      access: {
        clearanceMm: 95,
        sight: 'mirror',
        posture: 'bent',
        reach: 'arm',
        swingDeg: 40,
        held: false,
        lockedFasteners: 3,
      },
      import: { fileName: 'jobs.csv', rows: 3 },
    });
    expect(String(items[1]?.standardHours)).toBe('2');
  });

  test('the same file twice adds nothing, and neither does a copy sent at the same moment', async () => {
    const shop = await makeShop(api);
    const text = file(row('a'), row('a'), row('b'));
    const both = await Promise.all([take(shop, text), take(shop, text)]);
    expect(both.map(({ added, already }) => [added, already]).sort()).toEqual([
      [0, 3],
      [3, 0],
    ]);
    const again = await take(shop, text);
    expect([again.taken, again.importId, again.added, again.already]).toEqual([true, null, 0, 3]);
    expect((await counts(shop)).slice(0, 2)).toEqual([1, 3]);
  });

  test('a file that overlaps another adds only what is new in it, however it writes the rest', async () => {
    const shop = await makeShop(api);
    await take(shop, file(row('a'), row('b')));
    const rewritten = `\uFEFF${file(row('b').replace(',2.0,', ',"2.00",').replace('Ann Other:0.6;Bo Third:0.4', 'Bo Third:0.4;Ann Other:0.6'), row('c'), row('a')).replaceAll('\n', '\r\n')}`;
    const done = await take(shop, rewritten);
    expect([done.added, done.already]).toEqual([1, 2]);
  });

  test('another shop has its own history', async () => {
    const [one, other] = [await makeShop(api), await makeShop(api)];
    await take(one, file(row('a')));
    expect((await take(other, file(row('a')))).added).toBe(1);
    expect((await counts(one)).slice(0, 2)).toEqual([1, 1]);
  });

  test('text that is a script is text', async () => {
    const shop = await makeShop(api);
    const script = '<script>alert(1)</script>';
    await take(shop, file(row(`"${script}"`), row("'; DROP TABLE shop; --", '1')));
    const tasks = await shop.inside((tx) =>
      tx.historyItem.findMany({ select: { task: true }, orderBy: { hours: 'asc' } }),
    );
    expect(tasks.map(({ task }) => task)).toEqual(["'; DROP TABLE shop; --", script]);
  });

  test('measures between whole millimetres stay in their band', async () => {
    const shop = await makeShop(api);
    await take(shop, file(row('a').replace(',95,', ',119.6,').replace(',40,', ',59.9,')));
    const place = await shop.inside((tx) => tx.access.findFirstOrThrow());
    expect([place.clearanceMm, place.swingDeg]).toEqual([119, 59]);
  });
});

describe('a file with something wrong in it', () => {
  const bad = (column: string, value: string) => {
    const cells = row('a').split(',');
    cells[HEADER.split(',').indexOf(column)] = value;
    return cells.join(',');
  };

  test.each([
    ['completed_on', '2026-02-30'],
    ['completed_on', '2026-07-01'],
    ['completed_on', '0000-01-01'],
    ['task', ''],
    ['jasc', '78'],
    ['standard_hours', '0.0001'],
    ['hours', '-2'],
    ['hours', '1e999'],
    ['mechanic', 'A:0.6;B:0.6'],
    ['censored', 'yes'],
    ['clearance_mm', '-1'],
    ['sight', 'periscope'],
    ['posture', 'hanging'],
    ['reach', 'long'],
    ['swing_deg', '400'],
    ['held', '2'],
    ['locked_fasteners', '1.5'],
  ])(
    '%s %j is refused by line, column, value and remedy, and nothing is half-imported',
    async (column, value) => {
      const shop = await makeShop(api);
      const done = await take(shop, file(row('good'), bad(column, value), row('good', '3')));
      expect(done.taken).toBe(false);
      expect(done.read.refused).toHaveLength(1);
      expect(done.read.refused[0]).toMatchObject({ line: 3, column, value });
      expect(done.read.refused[0]?.remedy).toMatch(/\.$/);
      expect(await counts(shop)).toEqual([0, 0, 0]);
    },
  );

  test('skipping bad rows takes the others, once the refused ones are kept', async () => {
    const shop = await makeShop(api);
    let kept = '';
    const text = file(row('good'), bad('hours', 'lots'), row('good', '3'));
    const keepRefused = async (read: ImportedHistory['read']) => {
      kept = writeRefused(read);
      expect(await counts(shop)).toEqual([0, 0, 0]);
    };
    const done = await take(shop, text, { skipBad: true, keepRefused });
    expect([done.taken, done.added, done.read.refusedRows.length]).toEqual([true, 2, 1]);
    expect(kept.split('\n')[1]).toContain('lots');

    const mended = await take(shop, kept.replace('lots', '4').replace(/"?line 3:.*\n/, '\n'));
    expect([mended.taken, mended.added]).toEqual([true, 1]);
  });

  test('what cannot be kept is not skipped', async () => {
    const shop = await makeShop(api);
    const text = file(row('good'), bad('hours', 'lots'));
    await expect(
      take(shop, text, {
        skipBad: true,
        keepRefused: () => Promise.reject(new Error('disk full')),
      }),
    ).rejects.toThrow('disk full');
    expect(await counts(shop)).toEqual([0, 0, 0]);
  });

  test.each([
    ['an empty file', '', /empty/],
    ['a file without header', `${row('a')}\n`, /column/],
    ['a broken quotation', file(row('"a')), /quotation/],
  ])('%s is refused, with or without skipping', async (_, text, problem) => {
    const shop = await makeShop(api);
    for (const skipBad of [false, true]) {
      const done = await take(shop, text, { skipBad });
      expect([done.taken, done.added]).toEqual([false, 0]);
      expect(done.read.refused[0]?.problem).toMatch(problem);
    }
    expect(await counts(shop)).toEqual([0, 0, 0]);
  });

  test('bytes that are no UTF-8 are refused with their line', async () => {
    const shop = await makeShop(api);
    const latin1 = Buffer.concat([Buffer.from(file(row('good'))), Buffer.from([0xe9, 0x0a])]);
    await expect(take(shop, latin1)).rejects.toThrow('jobs.csv is not UTF-8: line 3');
    await expect(take(shop, Buffer.from(`\uFEFF${file(row('a'))}`, 'utf16le'))).rejects.toThrow(
      'it is UTF-16',
    );
  });
});

describe('a long file', () => {
  test('20,000 rows go in whole, and once', async () => {
    const shop = await makeShop(api);
    const lines = Array.from({ length: 20_000 }, (_, index) =>
      row(`task ${index % 400}`, String(1 + index / 1e5)),
    );
    const done = await take(shop, file(...lines));
    expect([done.added, done.already]).toEqual([20_000, 0]);
    expect((await counts(shop)).slice(1)).toEqual([20_000, 1]);
    const again = await take(shop, file(...lines));
    expect([again.added, again.already]).toEqual([0, 20_000]);
  });
});

/**
 * 46 active repair times of an airborne transceiver, hours: Von Alven 1964, as listed in Chhikara & Folks,
 * The Inverse Gaussian Distribution, 1989. Mean and s.d. (n − 1) of their logarithms: see tests/outside/repair-times.
 */
const repairHours = [
  0.2, 0.3, 0.5, 0.5, 0.5, 0.5, 0.6, 0.6, 0.7, 0.7, 0.7, 0.8, 0.8, 1, 1, 1, 1, 1.1, 1.3, 1.5, 1.5,
  1.5, 1.5, 2, 2, 2.2, 2.5, 2.7, 3, 3, 3.3, 3.3, 4, 4, 4.5, 4.7, 5, 5.4, 5.4, 7, 7.5, 8.8, 9, 10.3,
  22, 24.5,
];

describe('published repair times as a shop’s history of one task', () => {
  test('imported and estimated over HTTP without a prior: the quantiles of the lognormal predictive', async () => {
    const shop = await makeShop(api);
    const done = await take(
      shop,
      file(...repairHours.map((time) => `2026-01-02,transceiver,2310,,,,,${time},0,,,,,,,`)),
    );
    expect(done.added).toBe(46);
    const task = await shop.inside((tx) =>
      tx.task.create({
        data: {
          shopId: shop.shopId,
          key: 'transceiver',
          title: 'Repair transceiver',
          jasc: '2310',
          standardHours: null,
        },
      }),
    );
    const id = (type: string, key: string) => Buffer.from(`${type}:${key}`).toString('base64url');
    const answer = await shop.as<{
      estimateTask: { p80: number; p90: number; p95: number; jobs: number };
    }>(
      'front_desk',
      'query($t: ID!, $a: ID!) { estimateTask(taskId: $t, aircraftId: $a, usePrior: false) { ... on Estimate { p80 p90 p95 jobs } } }',
      { t: id('Task', task.id), a: id('Aircraft', shop.aircraftId) },
    );
    // Handbook quantile of the lognormal predictive, computed in R: exp(m + t(45, p) · s · √(1 + 1/46)) with m = 0.658392377788, s = 1.113965814234.
    expect(answer.data?.estimateTask.jobs).toBe(46);
    expect(answer.data?.estimateTask.p80).toBeCloseTo(5.0286, 4);
    expect(answer.data?.estimateTask.p90).toBeCloseTo(8.3556, 4);
    expect(answer.data?.estimateTask.p95).toBeCloseTo(12.8, 4);
  });
});
