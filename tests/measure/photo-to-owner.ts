// From the shutter to the owner's page, on a line of 1 Mbit/s: when the finding is there, when its photo, when the whole one.
// In tests/: npx vitest run --config measure/vitest.config.ts measure/photo-to-owner.ts. Wanted: its photo within 5 s.
// Starts a shop of its own, or takes the one at FAIRLEAD_ADDRESS (its demo's sign-ins are used).
import os from 'node:os';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { expect, it } from 'vitest';
import { signInByForm } from '../journeys/people.ts';
import { measuredShop } from '../support/measured-shop.ts';

const MBIT_S = 1;
const LATENCY_MS = 50;
const TIMES = 2;

const here = measuredShop('shutter');

/** A photo as large as a telephone takes it: 12 megapixels, soft shapes under the grain of a sensor. */
async function photograph(nth: number): Promise<Buffer> {
  const [width, height] = [4000, 3000];
  const noise = (sigma: number) => ({
    create: {
      ...{ width, height, channels: 3 as const, background: '#808080' },
      noise: { type: 'gaussian' as const, mean: 128, sigma },
    },
  });
  const shapes = await sharp({
    create: {
      ...{ width: 40, height: 30, channels: 3 as const, background: '#808080' },
      noise: { type: 'gaussian', mean: 120 + nth, sigma: 60 },
    },
  })
    .resize(width, height, { kernel: 'cubic' })
    .png()
    .toBuffer();
  const grain = await sharp(noise(9)).png().toBuffer();
  return sharp(shapes)
    .composite([{ input: grain, blend: 'soft-light' }])
    .jpeg({ quality: 92 })
    .toBuffer();
}

async function ownersLink(): Promise<string> {
  const context = await here.browser.newContext({ baseURL: here.address });
  const page = await context.newPage();
  await signInByForm(page, 'front desk');
  await page.goto('/desk');
  const order = page.getByRole('link', { name: /QQ-117/ }).first();
  await page.goto(new URL((await order.getAttribute('href')) ?? '', here.address).href);
  const part = page.getByRole('region', { name: 'The owner’s page' });
  await part.getByRole('button', { name: 'Make a link' }).click();
  const link = await part.getByRole('textbox', { name: /Copy it now/ }).inputValue();
  await context.close();
  return new URL(new URL(link).pathname, here.address).href;
}

/** Seconds from the shutter until the owner's page, asked again and again, shows something of the finding. */
async function until(shutter: number, shows: () => Promise<boolean>): Promise<number> {
  for (;;) {
    if (await shows()) return (performance.now() - shutter) / 1000;
    if (performance.now() - shutter > 180_000) return Number.POSITIVE_INFINITY;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

async function mechanic(): Promise<Page> {
  const context = await here.browser.newContext({
    baseURL: here.address,
    viewport: { width: 360, height: 740 },
  });
  const page = await context.newPage();
  await signInByForm(page, 'mechanic');
  await page.goto('/bench');
  await page.waitForLoadState('networkidle');
  const wire = await context.newCDPSession(page);
  await wire.send('Network.enable');
  await wire.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: LATENCY_MS,
    downloadThroughput: (MBIT_S * 1e6) / 8,
    uploadThroughput: (MBIT_S * 1e6) / 8,
  });
  return page;
}

it('a photo on its way from the mechanic to the owner', async () => {
  const link = await ownersLink();
  const page = await mechanic();
  const lines: string[] = [];
  for (let nth = 0; nth < TIMES; nth += 1) {
    const photo = await photograph(nth);
    const title = `Chafed line, photograph ${nth}`;
    await page.goto('/bench?found=');
    const aircraft = page.getByLabel('On which aircraft');
    const order = aircraft.locator('option', { hasText: 'QQ-117' });
    await aircraft.selectOption(await order.getAttribute('value'));
    await page.getByLabel('What it is').fill(title);
    const shutter = performance.now();
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: `IMG_${nth}.jpg`, mimeType: 'image/jpeg', buffer: photo });
    await page.getByRole('button', { name: 'Note it' }).click();
    const html = async () => (await fetch(link)).text();
    /** The finding's own part of the page. */
    const part = async () => (await html()).split('<article').find((each) => each.includes(title));
    const finding = await until(shutter, async () => (await part()) !== undefined);
    let seen = '';
    const picture = await until(shutter, async () => {
      const source = /src="([^"]+\/thumb)"/.exec((await part()) ?? '')?.[1];
      if (source === undefined) return false;
      seen = new URL(source, here.address).href;
      return (await fetch(seen)).status === 200;
    });
    let whole = 0;
    const original = await until(shutter, async () => {
      const answer = await fetch(seen.replace(/thumb$/, 'original'));
      const { width = 0 } = await sharp(Buffer.from(await answer.arrayBuffer())).metadata();
      whole = width;
      // The shop keeps at most 2400 pixels of the longer side.
      return width >= 2400;
    });
    lines.push(
      `photo of ${(photo.length / 1e6).toFixed(1)} MB: the finding after ${finding.toFixed(1)} s, its photo after ${picture.toFixed(1)} s (wanted ≤ 5 s), the whole one (${whole} pixels wide) after ${original.toFixed(1)} s`,
    );
  }
  console.info(
    [
      `From the shutter to the owner's page; the mechanic's page at ${MBIT_S} Mbit/s both ways, ${LATENCY_MS} ms (Network.emulateNetworkConditions), the owner's page asked every 100 ms; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
      ...lines,
    ].join('\n'),
  );
  expect(lines).toHaveLength(TIMES);
}, 900_000);
