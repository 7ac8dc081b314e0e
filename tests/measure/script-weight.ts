// How many bytes of script each page loads, by brotli and by gzip, and how soon the owner's page can be read.
// In tests/: npx vitest run --config measure/vitest.config.ts script-weight. It starts a shop of its own;
// FAIRLEAD_ADDRESS=http://localhost:PORT measures one that runs. Wanted by brotli: owner none, bench ≤ 155 kB, desk ≤ 280 kB.
import http from 'node:http';
import type { Page } from '@playwright/test';
import { afterAll, expect, it } from 'vitest';
import { signInByForm as signIn } from '../journeys/people.ts';
import { measuredShop } from '../support/measured-shop.ts';

const here = measuredShop('weight');

type Kind = 'Script' | 'Font' | 'Stylesheet' | 'Image' | 'Document';
/** `scripts`: by address, so that what the page asks for at first can be told from what comes after its first paint. */
type Weight = Record<Kind, number> & { scripts: Map<string, number>; sentAs: Set<string> };

/** Notes what a page loads from now on: bytes as they come over the wire, by kind. */
async function weigh(page: Page): Promise<Weight> {
  const weight: Weight = {
    Script: 0,
    Font: 0,
    Stylesheet: 0,
    Image: 0,
    Document: 0,
    scripts: new Map(),
    sentAs: new Set(),
  };
  const wire = await page.context().newCDPSession(page);
  await wire.send('Network.enable');
  await wire.send('Network.setCacheDisabled', { cacheDisabled: true });
  const kinds = new Map<string, { kind: string; address: string }>();
  wire.on('Network.responseReceived', ({ requestId, type, response }) => {
    kinds.set(requestId, { kind: type, address: response.url });
    const encoding = new Headers(response.headers).get('content-encoding');
    if (type === 'Script') weight.sentAs.add(encoding ?? 'plain');
  });
  wire.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    const { kind, address } = kinds.get(requestId) ?? { kind: '', address: '' };
    if (!(kind in weight)) return;
    weight[kind as Kind] += encodedDataLength;
    if (kind === 'Script') weight.scripts.set(new URL(address).pathname, encodedDataLength);
  });
  return weight;
}

const bodies = new Map<string, Promise<number>>();
/** What a script weighs in one encoding, asked for by that encoding alone. */
function bodyOf(script: string, encoding: 'gzip' | 'br'): Promise<number> {
  const key = `${encoding} ${script}`;
  const known =
    bodies.get(key) ??
    new Promise<number>((resolve, reject) => {
      const options = { headers: { 'accept-encoding': encoding } };
      http
        .get(new URL(script, here.address), options, (response) => {
          let bytes = 0;
          response.on('data', (piece: Buffer) => (bytes += piece.length));
          response.once('end', () => resolve(bytes));
        })
        .once('error', reject);
    });
  bodies.set(key, known);
  return known;
}
const total = async (scripts: readonly string[], encoding: 'gzip' | 'br') =>
  (await Promise.all(scripts.map((script) => bodyOf(script, encoding)))).reduce(
    (sum, bytes) => sum + bytes,
    0,
  );

interface First {
  /** As this browser asked for it and got it, headers and all. */
  sent: number;
  gzip: number;
  br: number;
}

const kilo = (bytes: number) => (bytes / 1000).toFixed(1).padStart(8);
const lines: string[] = [];
function tell(name: string, weight: Weight, limit: number, first: First): void {
  const { Script, Font, Stylesheet, Image, Document, scripts, sentAs } = weight;
  const over = (['br', 'gzip'] as const)
    .filter((encoding) => first[encoding] > limit * 1000)
    .map((encoding) => `  OVER by ${encoding}`)
    .join('');
  const how = [...sentAs].join('+') || '-';
  lines.push(
    `${name.padEnd(26)}${kilo(first.br)}${kilo(first.gzip)} ≤ ${String(limit).padEnd(3)}${kilo(first.sent)} ${how.padEnd(7)}${kilo(Script)} in ${String(scripts.size).padStart(2)}${kilo(Stylesheet)}${kilo(Font)}${kilo(Image)}${kilo(Document)}${over}`,
  );
}
const heading = `Script of a sheet's first load by brotli and by gzip (bodies), and as it was sent here (with headers). Browsers ask
for brotli only over https or on localhost: a shop opened by its bare address in the house gets gzip.
${'kB'.padEnd(26)}      br    gzip   limit    sent as       all files   style    font   image    html`;

/** What the sheet shows in the end is there, and its script too. */
async function settled(page: Page): Promise<void> {
  await page.locator('main h1').first().waitFor({ state: 'attached' });
  await page.waitForLoadState('networkidle');
}

const sheets = {
  'front desk': [
    ['/', 280],
    ['/floor', 280],
    ['/desk', 280],
    ['a quote', 280],
    ['a new quote', 280],
    ['an order', 280],
    ['/books', 280],
    ['an invoice', 280],
    ['/hours', 280],
  ],
  mechanic: [
    ['/bench', 155],
    ['an item', 155],
    ['/bench?found=', 155],
  ],
  inspector: [
    ['/bench', 155],
    ['/records', 280],
    ['an order’s records', 280],
    ['a signed entry', 280],
  ],
} as const;

/** Where a sheet of some thing is, as its person reaches it. */
const reached: Record<string, { from: string; link: RegExp; then?: RegExp }> = {
  'a quote': { from: '/desk', link: /QQ-163, 50-hour oil service/ },
  'a new quote': { from: '/desk', link: /^New quote$/ },
  'an order': { from: '/desk', link: /QQ-117/ },
  'an invoice': { from: '/books', link: /^Invoice 411/ },
  'an item': { from: '/bench', link: /^Sheet of/ },
  'an order’s records': { from: '/records', link: /QQ-117, 100-hour inspection/ },
  'a signed entry': {
    from: '/records',
    link: /QQ-163, 50-hour oil service/,
    then: /Print for the book/,
  },
};

async function placeOf(page: Page, name: string): Promise<string> {
  const way = reached[name];
  if (!way) return name;
  await page.goto(here.address + way.from);
  for (const link of [way.link, way.then]) {
    if (!link) continue;
    const href = await page.getByRole('link', { name: link }).first().getAttribute('href');
    await page.goto(new URL(href ?? '/', here.address).href);
    await settled(page);
  }
  return new URL(page.url()).pathname + new URL(page.url()).search;
}

it.each(Object.entries(sheets))(
  'weighs the sheets of the %s',
  async (who, own) => {
    const context = await here.browser.newContext({
      baseURL: here.address,
      viewport: { width: 1440, height: 900 },
    });
    const first = await context.newPage();
    await signIn(first, who as keyof typeof sheets);
    for (const [name, limit] of own) {
      const place = await placeOf(first, name);
      const page = await context.newPage();
      const weight = await weigh(page);
      const answer = await page.goto(place);
      const html = (await answer?.text()) ?? '';
      await settled(page);
      // What its HTML names; the rest is fetched when the page is idle, or for what it shows.
      const named = [...weight.scripts].filter(([script]) => html.includes(script));
      const files = named.map(([script]) => script);
      const atFirst = {
        sent: named.reduce((sum, [, bytes]) => sum + bytes, 0),
        gzip: await total(files, 'gzip'),
        br: await total(files, 'br'),
      };
      tell(`${who}: ${name}`, weight, limit, atFirst);
      expect.soft(atFirst.br, name).toBeLessThanOrEqual(limit * 1000);
      expect(atFirst.br).toBeGreaterThan(0);
      await page.close();
    }
    await context.close();
  },
  240_000,
);

async function ownersLink(): Promise<string> {
  const context = await here.browser.newContext({ baseURL: here.address });
  const page = await context.newPage();
  await signIn(page, 'front desk');
  await page.goto(await placeOf(page, 'an order'));
  const part = page.getByRole('region', { name: 'The owner’s page' });
  await part.getByRole('button', { name: 'Make a link' }).click();
  const link = await part.getByRole('textbox', { name: /Copy it now/ }).inputValue();
  await context.close();
  return new URL(link).pathname;
}

/** A telephone somewhere: 1.6 Mbit/s, 150 ms there and back, a processor four times slower. */
const slow = { latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 };

it('weighs the owner’s page, and times it on a slow network', async () => {
  const link = await ownersLink();
  const times: { paint: number; text: number; fonts: number; whole: number }[] = [];
  for (let run = 0; run < 5; run += 1) {
    const context = await here.browser.newContext({
      baseURL: here.address,
      viewport: { width: 360, height: 780 },
    });
    const page = await context.newPage();
    const weight = await weigh(page);
    const wire = await context.newCDPSession(page);
    await wire.send('Network.enable');
    await wire.send('Network.emulateNetworkConditions', { offline: false, ...slow });
    await wire.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await page.goto(link, { waitUntil: 'load' });
    await page.evaluate('document.fonts.ready.then(() => undefined)');
    times.push(
      await page.evaluate<(typeof times)[number]>(`(async () => {
        const largest = await new Promise((resolve) =>
          new PerformanceObserver((list) => resolve(list.getEntries().at(-1)))
            .observe({ type: 'largest-contentful-paint', buffered: true }));
        const paint = performance.getEntriesByName('first-contentful-paint')[0].startTime;
        const files = performance.getEntriesByType('resource');
        const fonts = files.filter(({ name }) => name.includes('.woff2'));
        return {
          paint,
          text: largest.startTime,
          fonts: Math.max(0, ...fonts.map(({ responseEnd }) => responseEnd)),
          whole: performance.timing.loadEventEnd - performance.timing.navigationStart,
        };
      })()`),
    );
    if (run === 0) {
      await page.waitForLoadState('networkidle');
      tell('owner: their page', weight, 0, { sent: weight.Script, gzip: 0, br: 0 });
      expect(weight.Script).toBe(0);
    }
    await context.close();
  }
  const middle = (key: keyof (typeof times)[number]) =>
    (times.map((each) => each[key]).sort((a, b) => a - b)[2] ?? 0).toFixed(0);
  lines.push(
    `owner's page at 1.6 Mbit/s, 150 ms, processor 4× slower, median of 5: first words ${middle('paint')} ms, largest ${middle('text')} ms, B612 there ${middle('fonts')} ms, all loaded ${middle('whole')} ms`,
  );
}, 240_000);

afterAll(() => {
  console.info([heading, ...lines].join('\n'));
});
