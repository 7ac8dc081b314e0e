// From a touch on the bench to the state that it shows, with no network, on a telephone's slow processor.
// In tests/: npx vitest run --config measure/vitest.config.ts measure/bench-touch.ts. Wanted: 100 ms or less.
// Starts a shop of its own, or takes the one at FAIRLEAD_ADDRESS (its demo's sign-ins are used).
import os from 'node:os';
import type { Locator, Page } from '@playwright/test';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { signInByForm } from '../journeys/people.ts';
import { type CuttableLine, cuttableLine } from '../support/cuttable-line.ts';
import { measuredShop } from '../support/measured-shop.ts';

/** How much slower than this machine’s processor, by Chromium’s own emulation; FAIRLEAD_SLOWER=1 leaves it as it is. */
const SLOWER = Number(process.env.FAIRLEAD_SLOWER ?? 4);
const TIMES = 8;

const here = measuredShop('touch');
let line: CuttableLine;
beforeAll(async () => {
  line = await cuttableLine(Number(new URL(here.address).port));
});
const lines: string[] = [];
afterAll(async () => {
  console.info(lines.join('\n'));
  await line.close();
});

/** Milliseconds from the finger's coming down to the first frame after `shows` (an expression of the page) is true. */
async function touched(what: Locator, shows: string): Promise<number> {
  const page = what.page();
  await what.scrollIntoViewIfNeeded();
  expect(await page.evaluate<boolean>(`Boolean(${shows})`), `before the touch: ${shows}`).toBe(
    false,
  );
  // Nothing is given back: a promise would be waited for here.
  await page.evaluate(`void (window.seen_ = new Promise((resolve) => {
    let from;
    addEventListener('pointerdown', ({ timeStamp }) => { from = timeStamp; }, { capture: true, once: true });
    const look = () => {
      if (from === undefined || !(${shows})) return requestAnimationFrame(look);
      // A task after this frame's callbacks comes after its paint.
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => resolve(performance.now() - from);
      port2.postMessage(null);
    };
    requestAnimationFrame(look);
  }))`);
  await what.tap();
  return page.evaluate<number>('window.seen_');
}

function told(name: string, values: readonly number[]): string {
  const sorted = values.toSorted((one, other) => one - other);
  const at = (share: number) =>
    sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
  const over = values.filter((each) => each > 100).length;
  return `${name.padEnd(44)} median ${at(0.5).toFixed(0).padStart(4)}, p95 ${at(0.95).toFixed(0).padStart(4)}, max ${at(1).toFixed(0).padStart(4)} ms of ${values.length}${over === 0 ? '' : `; over 100 ms: ${over}`}`;
}

const text = (words: string) => `document.body.innerText.includes(${JSON.stringify(words)})`;
const clock = (words: string) =>
  `document.querySelector('section[aria-label="Your clock"]')?.innerText.includes(${JSON.stringify(words)})`;
const gone = (label: string) =>
  `document.querySelector('[aria-label=${JSON.stringify(label)}]') === null`;

const bench = () => `http://localhost:${line.port}/bench`;

async function openBench(): Promise<Page> {
  const context = await here.browser.newContext({
    baseURL: here.address,
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  // Beside the line, whose address is none of the shop's.
  await signInByForm(page, 'mechanic');
  await page.goto(bench());
  await page
    .getByRole('button', { name: /^Start: / })
    .first()
    .waitFor();
  // The program and all sheets come to the device.
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(5000);
  return page;
}

it('the bench with no network, from touch to state', async () => {
  const page = await openBench();
  line.cut();
  const wire = await page.context().newCDPSession(page);
  await wire.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await page.reload();
  const rows = page.getByRole('button', { name: /^Start: / });
  await rows.first().waitFor();
  const links = page.getByRole('link', { name: /^Sheet of/ });
  const titles = (await links.allTextContents()).map((each) => each.replace('Sheet of ', ''));
  const [a = '', b = ''] = titles;
  const start = (title: string) => rows.filter({ hasText: title }).first();
  // Cautions are read once, before anything is measured.
  for (const title of [a, b]) {
    await start(title).tap();
    const read = page.getByRole('button', { name: 'Read. Start the clock' });
    await page.waitForTimeout(500);
    if (await read.isVisible()) await read.tap();
    await page.waitForTimeout(500);
  }
  const measure = async (name: string, one: (nth: number) => Promise<number>, times = TIMES) => {
    const values: number[] = [];
    for (let nth = 0; nth < times; nth += 1) values.push(await one(nth));
    const line = told(name, values);
    console.info(line);
    lines.push(line);
  };

  await measure('switch the clock', (nth) => {
    const title = nth % 2 === 0 ? a : b;
    return touched(start(title), clock(title));
  });
  await measure('stop the clock, and start it', async (nth) =>
    nth % 2 === 0
      ? touched(
          page.getByRole('button', { name: 'Stop', exact: true }),
          clock('Your clock is stopped'),
        )
      : touched(start(a), clock(a)),
  );
  for (const [what, shows] of [
    ['', 'Clocked:'],
    [', to its end', 'It has to wait'],
  ] as const) {
    await measure(`open the sheet of an item${what}`, async (nth) => {
      if (nth > 0) await page.goBack();
      const sheet = page.getByRole('link', { name: `Sheet of ${b}`, exact: true });
      await sheet.waitFor();
      return touched(sheet, text(shows));
    });
    await page.goBack();
  }
  for (const [what, shows] of [
    ['', 'What it is'],
    [', to its end', 'How it looks to you'],
  ] as const) {
    await measure(`open “Found something”${what}`, async (nth) => {
      if (nth > 0) await page.goBack();
      const found = page.getByRole('link', { name: 'Found something' });
      await found.waitFor();
      return touched(found, text(shows));
    });
    await page.goBack();
  }

  await page.goto(bench());
  await page.getByRole('link', { name: / of QQ-117$/ }).tap();
  await page.getByText('Note what you opened or took off').tap();
  await measure('note that a panel is open', async (nth) => {
    const words = `Cover plate ${nth}`;
    const note = page.getByRole('button', { name: 'Note it' });
    await page.locator('form').filter({ has: note }).getByLabel('What').fill(words);
    return touched(note, `document.querySelector('[aria-label="Closed: ${words}"]') !== null`);
  });
  await measure('close it again, before it was sent', (nth) =>
    touched(
      page.getByRole('button', { name: `Closed: Cover plate ${nth}`, exact: true }),
      gone(`Closed: Cover plate ${nth}`),
    ),
  );
  await page.getByText('Count out tools and rags').tap();
  await measure('count out', async (nth) => {
    const out = page.getByRole('form', { name: 'Count out' });
    await out.getByLabel('What').fill(`Punch ${nth}`);
    await out.getByLabel('How many').fill('1');
    return touched(out.getByRole('button', { name: 'Count out' }), text(`Punch ${nth}, back`));
  });

  await page.goto(bench());
  await rows.first().waitFor();
  const initialled: number[] = [];
  for (let sheet = 0; sheet < (await links.count()) && initialled.length < TIMES; sheet += 1) {
    await links.nth(sheet).tap();
    await page.getByText('It has to wait').waitFor();
    const open = page.getByRole('button', { name: /^Initial line/ });
    await page.waitForTimeout(500);
    for (let left = await open.count(); left > 0 && initialled.length < TIMES; left -= 1) {
      const label = (await open.first().getAttribute('aria-label')) ?? '';
      initialled.push(await touched(open.first(), gone(label)));
    }
    await page.goBack();
    await rows.first().waitFor();
  }
  lines.push(told('initials under a line of a list', initialled));

  lines.unshift(
    `The bench with the line cut, processor ${SLOWER}× slower (Emulation.setCPUThrottlingRate), 360 × 740, Chromium ${here.browser.version()};`,
    `from pointerdown to the first frame with the state; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors. Wanted: 100 ms.`,
  );
}, 600_000);
