// How long a history file of 100,000 rows takes by the browser's way, and how much memory: sent, read through by the
// worker, taken in. In tests/: npx vitest run --config measure/vitest.config.ts history-import.
// Wanted: at most 60 s in all, and no process over 600 MB. It starts a shop of its own.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { noted, pause, type RunningShop, serverOf, startShop } from '../support/running-shop.ts';

const ROWS = Number(process.env['ROWS'] ?? 100_000);
const SERVERS = ['API', 'worker', 'web'] as const;

let shop: RunningShop;
let dir = '';
let address = '';
let manager: { email: string; password: string };
beforeAll(async () => {
  dir = mkdtempSync(
    path.join(process.getuid?.() === 0 ? '/var/tmp' : os.tmpdir(), 'fairlead-rows-'),
  );
  shop = startShop(dir);
  const [, email = '', password = ''] = await shop.says(/manager +(\S+@\S+) +(\S.*\S)/);
  manager = { email, password };
  ({ address } = noted(dir));
}, 600_000);
afterAll(async () => {
  shop.interrupt();
  await shop.ended;
  rmSync(dir, { recursive: true, force: true });
}, 60_000);

/** Jobs as a shop of twenty years has them: 400 tasks, 60 aircraft, 12 people, a place for every third. */
function historyFile(): string {
  const line = (index: number) => {
    const day = new Date(Date.UTC(2006, 0, 1) + (index % 7000) * 86_400_000);
    const place =
      index % 3 === 0
        ? `${20 + (index % 90)},mirror,bent,arm,${30 + (index % 200)},0,${index % 5}`
        : ',,,,,,';
    return `${day.toISOString().slice(0, 10)},task ${index % 400},${7000 + (index % 900)},${(0.3 + (index % 40) / 10).toFixed(1)},T-${index % 9},QQ-${100 + (index % 60)},Person ${index % 12},${(0.2 + (index % 9973) / 1000).toFixed(3)},0,${place}`;
  };
  return [
    'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners',
    ...Array.from({ length: ROWS }, (_, index) => line(index)),
    '',
  ].join('\n');
}

/** Of a process, by the kernel: most memory it ever held since the last `forget`, and what it holds now, in MB. */
const memory = (pid: number, of: 'VmHWM' | 'VmRSS') =>
  Number(new RegExp(`${of}:\\s+(\\d+) kB`).exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) /
  1024;
const forget = (pid: number) => writeFileSync(`/proc/${pid}/clear_refs`, '5');

async function signedIn(): Promise<string> {
  const answer = await fetch(`${address}/auth/sign-in/email`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: address },
    body: JSON.stringify(manager),
  });
  expect(answer.status).toBe(200);
  return answer.headers
    .getSetCookie()
    .map((each) => each.split(';')[0])
    .join('; ');
}

interface Upload {
  id: string;
  state: string;
  problem: string | null;
  goodRows: number | null;
  refusedRows: number | null;
  addedRows: number | null;
}
async function ask<T>(cookie: string, query: string): Promise<T> {
  const answer = await fetch(`${address}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'apollo-require-preflight': '1', cookie },
    body: JSON.stringify({ query }),
  });
  const { data, errors } = (await answer.json()) as { data: T; errors?: unknown };
  expect(errors).toBeUndefined();
  return data;
}
const FIELDS = 'id state problem goodRows refusedRows addedRows';
async function until(cookie: string, state: string, slowest: number[]): Promise<Upload> {
  for (;;) {
    const from = performance.now();
    const { hindsight } = await ask<{ hindsight: { upload: Upload } }>(
      cookie,
      `{ hindsight { upload { ${FIELDS} } } }`,
    );
    slowest.push(performance.now() - from);
    if (hindsight.upload.state === state) return hindsight.upload;
    if (!hindsight.upload.state.startsWith('being_')) throw new Error(JSON.stringify(hindsight));
    await pause(100);
  }
}

it(`a history file of ${ROWS} rows by the browser's way`, async () => {
  const cookie = await signedIn();
  const pids = Object.fromEntries(SERVERS.map((name) => [name, serverOf(dir, name)]));
  const before = SERVERS.map((name) => memory(pids[name] ?? 0, 'VmRSS'));
  for (const name of SERVERS) forget(pids[name] ?? 0);
  const file = historyFile();
  const asked: number[] = [];

  const begun = performance.now();
  const sent = await fetch(`${address}/history/uploads?name=jobs.csv`, {
    method: 'POST',
    headers: { cookie, 'x-fairlead': '1' },
    body: file,
  });
  expect(sent.status).toBe(201);
  const there = performance.now();
  const read = await until(cookie, 'read', asked);
  expect([read.goodRows, read.refusedRows]).toEqual([ROWS, 0]);
  const readAt = performance.now();
  await ask(
    cookie,
    `mutation { takeInHistory(uploadId: "${read.id}") { ... on Refusal { message } } }`,
  );
  const taken = await until(cookie, 'taken_in', asked);
  expect(taken.addedRows).toBe(ROWS);
  const done = performance.now();

  const seconds = (from: number, to: number) => `${((to - from) / 1000).toFixed(1)} s`;
  const peaks = SERVERS.map(
    (name, index) =>
      `${name} ${before[index]?.toFixed(0)} → ${memory(pids[name] ?? 0, 'VmHWM').toFixed(0)}`,
  );
  console.info(
    [
      `${ROWS} rows, ${(file.length / 1e6).toFixed(1)} MB; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
      `sent ${seconds(begun, there)}, read through ${seconds(there, readAt)}, taken in ${seconds(readAt, done)}, in all ${seconds(begun, done)}`,
      `memory before → most, MB: ${peaks.join(', ')}`,
      `the API meanwhile: ${asked.length} questions, slowest ${Math.max(...asked).toFixed(0)} ms`,
    ].join('\n'),
  );
}, 900_000);
