import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type Browser, chromium } from '@playwright/test';
import { afterAll, beforeAll } from 'vitest';
import { noted, type RunningShop, startShop } from './running-shop.ts';

const asRoot = process.getuid?.() === 0;

export interface MeasuredShop {
  /** Where the shop answers. */
  readonly address: string;
  readonly browser: Browser;
}

/**
 * A shop of its own and a browser for what a file measures, from its first test to its last; or the shop at FAIRLEAD_ADDRESS,
 * with its demo's sign-ins.
 */
export function measuredShop(name: string): MeasuredShop {
  let own: { shop: RunningShop; dir: string } | null = null;
  let address = process.env.FAIRLEAD_ADDRESS ?? '';
  let browser: Browser | null = null;

  beforeAll(async () => {
    if (address === '') {
      const dir = mkdtempSync(path.join(asRoot ? '/var/tmp' : os.tmpdir(), `fairlead-${name}-`));
      own = { shop: startShop(dir), dir };
      await own.shop.says(/Fairlead is ready/);
      ({ address } = noted(dir));
    }
    browser = await chromium.launch({
      executablePath: process.env.CHROMIUM_PATH || '/usr/bin/chromium',
      args: [
        ...(asRoot ? ['--no-sandbox'] : []),
        ...['--disable-gpu', '--disable-quic', '--no-first-run'],
      ],
    });
  }, 600_000);
  afterAll(async () => {
    await browser?.close();
    if (own === null) return;
    own.shop.interrupt();
    await own.shop.ended;
    rmSync(own.dir, { recursive: true, force: true });
  }, 60_000);

  return {
    get address() {
      return address;
    },
    get browser() {
      if (browser === null) throw new Error('The browser is there from the first test on');
      return browser;
    },
  };
}
