import fs from 'node:fs';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freeLoopbackPort } from '../../scripts/ports.ts';
import {
  databasePid,
  isAlive,
  noted,
  pause,
  processesOn,
  type RunningShop,
  serverOf,
  startShop,
} from '../support/running-shop.ts';
import { Finder, type Order } from './finder.ts';

// The cases follow each other on one shop, as days do: each takes it as the one before has left it.
const LONG = 240_000;
const FINDINGS = 10;

const finder = new Finder();
let dir = '';
let port = 0;
let shop: RunningShop | undefined;
let firstDay: Order[] = [];

beforeAll(async () => {
  // As root the database runs under another account, which cannot get below /root or a private /tmp.
  const below = process.getuid?.() === 0 ? '/var/tmp' : os.tmpdir();
  dir = fs.mkdtempSync(path.join(below, 'fairlead-start-'));
  port = await freeLoopbackPort();
});

afterAll(async () => {
  if (shop) {
    shop.interrupt();
    await shop.ended;
  }
  fs.rmSync(dir, { recursive: true, force: true });
}, LONG);

/** Starts the shop and waits for its address; the seconds go into the log of the run. */
async function start(what: string, args: readonly string[] = [], given: number | null = port) {
  const began = performance.now();
  shop = startShop(dir, args, given ?? undefined);
  const [, address = ''] = await shop.says(/is ready at (http:\S+)/);
  const taken = ((performance.now() - began) / 1000).toFixed(1);
  process.stdout.write(`start command: ${what}: ready after ${taken} s\n`);
  finder.origin = address.replace('localhost', '127.0.0.1');
  await shop.says(/Ctrl-C stops everything/);
  return shop;
}

async function stop(running: RunningShop): Promise<void> {
  running.interrupt();
  expect(await running.ended).toEqual({ code: 0, signal: null });
  shop = undefined;
}

/** Kills a process outright while findings come in. */
async function killAmidWork(name: string, pid: number): Promise<void> {
  for (let n = 1; n <= FINDINGS; n += 1) {
    const noting = finder.note(`Noted while the ${name} died, ${n}`);
    if (n === 3) process.kill(pid, 'SIGKILL');
    await noting;
  }
}

/** What has been asked to stop may take a moment; then nothing of the shop may be left, noted or not. */
async function expectAllGone(pids: readonly number[]): Promise<void> {
  const patience = { timeout: 60_000, interval: 50 };
  await expect.poll(() => pids.filter(isAlive), patience).toEqual([]);
  await expect.poll(() => processesOn(dir), patience).toEqual([]);
}

describe('npm start', () => {
  it(
    'a shop started twice keeps its data and does no work twice',
    async () => {
      const first = await start('first start, demo loaded');
      expect(first.printed()).toContain('demo shop: loaded');
      await finder.signIn(first.printed(), noted(dir).address);
      firstDay = await finder.orders();
      const busy = firstDay.find(({ state, findings }) => state === 'here' && findings.length > 0);
      if (!busy) throw new Error(`No order of the demo is in work: ${JSON.stringify(firstDay)}`);
      finder.orderId = busy.id;
      await finder.note('Noted before the second start');

      const before = noted(dir);
      const beside = startShop(dir, [], port);
      expect(await beside.ended).toEqual({ code: 0, signal: null });
      expect(beside.printed()).toContain(`already running at ${before.address}`);
      expect(noted(dir)).toEqual(before);
      await stop(first);

      const second = await start('second start');
      expect(second.printed()).toMatch(/generated code: unchanged/);
      expect(second.printed()).toMatch(/web pages: unchanged/);
      expect(second.printed()).toMatch(/tables and rules: up to date/);
      expect(second.printed()).toMatch(/demo shop: already there/);
      await finder.expectNothingLost(); // with the first day's sign-in
      expect((await finder.orders()).map(({ id }) => id)).toEqual(firstDay.map(({ id }) => id));
      await finder.signIn(second.printed(), noted(dir).address);
    },
    LONG,
  );

  it.each(['API', 'worker', 'web'])(
    'kill -9 of the %s: it is started again, and nothing acknowledged is lost',
    async (name) => {
      if (!shop) throw new Error('The shop is not running');
      const pid = serverOf(dir, name);
      const from = shop.printed().length;
      await killAmidWork(name, pid);
      await shop.says(new RegExp(`The ${name} was ended by SIGKILL; starting it again`), from);
      while (serverOf(dir, name) === pid) await pause(50);
      expect(isAlive(pid)).toBe(false);
      expect(isAlive(serverOf(dir, name))).toBe(true);
      await finder.expectNothingLost();
    },
    LONG,
  );

  it(
    'kill -9 of the database: it is started again, and nothing acknowledged is lost',
    async () => {
      const pid = databasePid(dir);
      if (!shop || pid === null) throw new Error('The shop or its database is not running');
      const from = shop.printed().length;
      await killAmidWork('database', pid);
      await shop.says(/The database is running again/, from);
      expect(databasePid(dir)).not.toBe(pid);
      await finder.expectNothingLost();
    },
    LONG,
  );

  it(
    'kill -9 of the starter itself: the next start comes up by itself, and nothing acknowledged is lost',
    async () => {
      if (!shop) throw new Error('The shop is not running');
      const { pid, children } = noted(dir);
      await finder.note('Noted before the starter died');
      process.kill(pid, 'SIGKILL');
      expect((await shop.ended).signal).toBe('SIGKILL');
      // At once and on the same port, while the servers that it has left behind still stop.
      await start('start after kill -9 of the starter');
      for (const child of children) expect(isAlive(child.pid), child.name).toBe(false);
      await finder.expectNothingLost();
      await finder.note('Noted after the starter died');
      await finder.expectNothingLost();
    },
    LONG,
  );

  it(
    'Ctrl-C leaves no process behind',
    async () => {
      if (!shop) throw new Error('The shop is not running');
      const database = databasePid(dir);
      const { pid, children } = noted(dir);
      const all = [pid, shop.pid, database ?? 0, ...children.map((child) => child.pid)];
      expect(all.map(isAlive)).toEqual(all.map(() => true));
      // On Linux the search must be able to find what it is to miss afterwards.
      if (process.platform === 'linux') expect(processesOn(dir).length).toBeGreaterThanOrEqual(6);
      await stop(shop);
      await expectAllGone(all);
      expect(databasePid(dir)).toBeNull();
      expect(fs.existsSync(path.join(dir, 'running.json'))).toBe(false);
    },
    LONG,
  );

  it(
    'a taken port is named and the next free one is taken, unless PORT was given',
    async () => {
      const occupied = net.createServer();
      await new Promise<void>((resolve) => occupied.listen(port, '127.0.0.1', resolve));
      const refused = startShop(dir, [], port);
      expect(await refused.ended).toEqual({ code: 1, signal: null });
      expect(refused.printed()).toContain(`Port ${port} is in use by another program.`);
      expect(refused.printed()).not.toContain('is ready');
      await new Promise((resolve) => occupied.close(resolve));

      // Somebody may be using 3000 already; if not, we do.
      const preferred = net.createServer();
      await new Promise<void>((resolve) => {
        preferred.once('error', () => resolve());
        preferred.listen(3000, '127.0.0.1', resolve);
      });
      const elsewhere = await start('start beside a taken port', [], null);
      const [, taken] =
        /Port 3000 is in use by another program; taking (\d+)\./.exec(elsewhere.printed()) ?? [];
      expect(noted(dir).address).toBe(`http://localhost:${taken}`);
      await finder.expectNothingLost();
      if (preferred.listening) await new Promise((resolve) => preferred.close(resolve));
    },
    LONG,
  );

  it(
    '--reset returns the demo to its first day, but never under a running shop',
    async () => {
      if (!shop) throw new Error('The shop is not running');
      const running = shop;
      const refused = startShop(dir, ['--reset'], port);
      expect(await refused.ended).toEqual({ code: 1, signal: null });
      expect(refused.printed()).toContain('Stop it first');
      await finder.expectNothingLost();
      await stop(running);
      const stray = path.join(dir, 'uploads', 'of-yesterday.jpg');
      fs.writeFileSync(stray, 'not of the first day');

      const again = await start('start with --reset, demo loaded anew', ['--reset']);
      await finder.signIn(again.printed(), noted(dir).address);
      const told = (list: Order[]) => list.map(({ id: _, ...rest }) => rest);
      expect(told(await finder.orders())).toEqual(told(firstDay));
      expect(fs.existsSync(stray)).toBe(false);
    },
    LONG,
  );

  it(
    'kill -9 of the command that a person typed: everything stops in order by itself',
    async () => {
      if (!shop) throw new Error('The shop is not running');
      const database = databasePid(dir);
      const { pid, children } = noted(dir);
      process.kill(shop.pid, 'SIGKILL');
      expect((await shop.ended).signal).toBe('SIGKILL');
      shop = undefined;
      await expectAllGone([pid, database ?? 0, ...children.map((child) => child.pid)]);
      expect(databasePid(dir)).toBeNull();
      expect(fs.existsSync(path.join(dir, 'running.json'))).toBe(false);
    },
    LONG,
  );
});
