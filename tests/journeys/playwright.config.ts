import { mkdtempSync } from 'node:fs';
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
process.env.FAIRLEAD_JOURNEY_DIR ??= mkdtempSync(
  path.join(asRoot ? '/var/tmp' : os.tmpdir(), 'fairlead-journey-'),
);

/** Each person's moment, in a browser, through the running system that `npm start` starts. */
export default defineConfig({
  testDir: '.',
  testMatch: '*.test.ts',
  outputDir: path.join(root, 'test-results'),
  // One shop, one database: a journey's steps follow each other, and two journeys may touch one aircraft.
  workers: 1,
  fullyParallel: false,
  retries: 0,
  timeout: 90_000,
  expect: { timeout: 10_000 },
  forbidOnly: Boolean(process.env.CI),
  globalTeardown: './leave-nothing.ts',
  use: {
    baseURL,
    trace: 'retain-on-failure',
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
    env: { PORT: port, FAIRLEAD_DATA_DIR: process.env.FAIRLEAD_JOURNEY_DIR },
  },
});
