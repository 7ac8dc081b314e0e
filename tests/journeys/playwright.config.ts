import { existsSync, mkdtempSync, readdirSync, rmdirSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';

const root = fileURLToPath(new URL('../..', import.meta.url));
const port = process.env.FAIRLEAD_JOURNEY_PORT ?? '4310';
const baseURL = `http://localhost:${port}`;
const asRoot = process.getuid?.() === 0;

// Made once, in the process that starts the shop; the workers load this file again and find it here.
// As root the database server runs under another account, which cannot get below /root or a private /tmp.
if (!process.env.FAIRLEAD_JOURNEY_DIR) {
  const below = asRoot ? '/var/tmp' : os.tmpdir();
  const folder = mkdtempSync(path.join(below, 'fairlead-journey-'));
  process.env.FAIRLEAD_JOURNEY_DIR = folder;
  // `--list` starts no shop and calls no leave-nothing.ts: its folder is empty, and may go.
  process.once('exit', () => {
    if (existsSync(folder) && readdirSync(folder).length === 0) rmdirSync(folder);
  });
}

// Two halves may run beside each other, each in a shop of its own; without a half, all in one.
const half = process.env.FAIRLEAD_JOURNEY_HALF ?? '';
if (!['', '1', '2'].includes(half))
  throw new Error(`FAIRLEAD_JOURNEY_HALF is "${half}"; it may be 1, 2 or nothing.`);
/** The first half by name; the second is whatever else there is. They take about as long. */
const first = ['every-page', 'floor', 'history', 'owner'].map((name) => `${name}.test.ts`);

/** Each person's moment, in a browser, through the running system that `npm start` starts. */
export default defineConfig({
  testDir: '.',
  testMatch: half === '1' ? first : '*.test.ts',
  testIgnore: half === '2' ? first : [],
  outputDir: path.join(root, 'test-results', half),
  // One shop, one database: a journey's steps follow each other, and two journeys may touch one aircraft.
  workers: 1,
  fullyParallel: false,
  // On CI once more, and the run names it: what is shown a second time to work is a finding, no reason to hold all back.
  retries: process.env.CI ? 1 : 0,
  timeout: 90_000,
  expect: { timeout: 20_000 },
  forbidOnly: Boolean(process.env.CI),
  globalTeardown: './leave-nothing.ts',
  use: {
    baseURL,
    // A trace makes every step slower by a third: it is recorded when somebody looks for a fault.
    trace: process.env.FAIRLEAD_JOURNEY_TRACE === '1' ? 'retain-on-failure' : 'off',
    screenshot: 'only-on-failure',
    launchOptions: {
      executablePath: process.env.CHROMIUM_PATH || '/usr/bin/chromium',
      args: [
        ...(asRoot ? ['--no-sandbox'] : []),
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  webServer: {
    command: `"${process.execPath}" scripts/bootstrap.mjs start`,
    cwd: root,
    url: `${baseURL}/readyz`,
    timeout: 240_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 20_000 },
    stdout: 'pipe',
    stderr: 'pipe',
    // No mail server, whatever is set around: the mails are kept and shown.
    env: { PORT: port, FAIRLEAD_DATA_DIR: process.env.FAIRLEAD_JOURNEY_DIR, SMTP_HOST: '' },
  },
});
