/** The import as a person runs it: what it prints, where, and its exit code. */
import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const header =
  'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const good = '2025-03-09,hose,7310,1.6,T-2,QQ-101,Ann,2.25,0,,,,,,,';
const bad = '2025-03-09,hose,7310,1.6,T-2,QQ-101,Ann,-1,0,,,,,,,';

let api: TestApi;
let shop: TestShop;
let folder: string;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api, { name: 'Command shop' });
  // A shop is found through its people's accounts.
  await shop.cookie('manager');
  folder = await mkdtemp(path.join(os.tmpdir(), 'fairlead-import-'));
});
afterAll(async () => {
  await api.stop();
  await rm(folder, { recursive: true, force: true });
});

function run(...args: string[]): Promise<{ code: number | null; out: string; err: string }> {
  return new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      [path.join(root, 'scripts/bootstrap.mjs'), 'import-history', ...args],
      {
        cwd: folder,
        env: { ...process.env, DATABASE_URL: api.database.appUrl, INIT_CWD: folder },
      },
    );
    let [out, err] = ['', ''];
    child.stdout.on('data', (data) => (out += data));
    child.stderr.on('data', (data) => (err += data));
    child.once('error', reject);
    child.once('close', (code) => resolve({ code, out, err }));
  });
}
const count = () => shop.inside((tx) => tx.historyItem.count());

test('all or nothing, then the rest with --skip-bad, then nothing new', async () => {
  await writeFile(path.join(folder, 'jobs.csv'), `${header}\n${good}\n${bad}\n`);
  const refused = await run('jobs.csv');
  expect([refused.code, await count()]).toEqual([1, 0]);
  expect(refused.out).toContain('1 row of 2 refused: nothing was imported.');
  expect(refused.err).toContain(
    'jobs.csv, line 3, hours: "-1" is not above 0. Write hours above 0',
  );

  const skipped = await run('jobs.csv', '--skip-bad', '--refused', 'left.csv');
  expect([skipped.code, await count()]).toEqual([0, 1]);
  expect(skipped.out).toContain('Command shop: 1 row added.');
  expect(await readFile(path.join(folder, 'left.csv'), 'utf8')).toContain(
    'line 3: hours ""-1"" is not above 0',
  );

  const kept = await run('jobs.csv', '--skip-bad', '--refused', 'left.csv');
  expect(kept.code).toBe(2);
  expect(kept.err).toContain('it exists already');

  await writeFile(path.join(folder, 'good.csv'), `${header}\n${good}\n`);
  const again = await run('good.csv', '--shop', 'Command shop');
  expect([again.code, await count()]).toEqual([0, 1]);
  expect(again.out).toContain('Command shop: 0 rows added, 1 was there already.');
}, 240_000);

test('what cannot be read is said in a sentence, and nothing is imported', async () => {
  const before = await count();
  const missing = await run('nothere.csv');
  expect([missing.code, missing.err]).toEqual([
    2,
    expect.stringContaining('nothere.csv: there is no such file.'),
  ]);
  await writeFile(path.join(folder, 'empty.csv'), '');
  const empty = await run('empty.csv');
  expect([empty.code, empty.err]).toEqual([
    1,
    expect.stringContaining('empty.csv, line 1: this is an empty file.'),
  ]);
  await writeFile(
    path.join(folder, 'latin.csv'),
    Buffer.concat([Buffer.from(`${header}\n`), Buffer.from([0xe9])]),
  );
  const latin = await run('latin.csv');
  expect([latin.code, latin.err]).toEqual([
    1,
    expect.stringContaining('latin.csv is not UTF-8: line 2'),
  ]);
  const elsewhere = await run('good.csv', '--shop', 'No such shop');
  expect([elsewhere.code, elsewhere.err]).toEqual([
    1,
    expect.stringContaining('There is no shop "No such shop"'),
  ]);
  expect(await count()).toBe(before);
}, 240_000);
