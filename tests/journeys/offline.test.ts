import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { type CuttableLine, cuttableLine } from '../support/cuttable-line.ts';
import { axeFree, signIn } from './people.ts';

/** The bench with the network down: through reloads, a telephone that restarts, two tabs, full storage, a wrong clock. */

test.describe.configure({ mode: 'serial' });

const NIGHT_MS = 24 * 3_600_000;
let line: CuttableLine;
let folder: string;
let phone: BrowserContext;
let page: Page;
const shopPort = () => Number(new URL(test.info().project.use.baseURL ?? '').port);

/** A browser with a folder of its own, so that it can be closed and opened again as a telephone is. */
async function turnOn(): Promise<void> {
  const { launchOptions, baseURL } = test.info().project.use;
  phone = await chromium.launchPersistentContext(folder, {
    ...launchOptions,
    ...(baseURL !== undefined && { baseURL }),
    viewport: { width: 360, height: 740 },
  });
  page = phone.pages()[0] ?? (await phone.newPage());
}

test.beforeAll(async () => {
  line = await cuttableLine(shopPort());
  folder = mkdtempSync(path.join(os.tmpdir(), 'fairlead-phone-'));
  await turnOn();
  await signIn(page, 'second mechanic');
  await page.goto(bench());
  await isKept(page);
});
test.afterAll(async () => {
  await phone.close();
  await line.close();
  rmSync(folder, { recursive: true, force: true });
});

const bench = () => `http://localhost:${line.port}/bench`;
/** The program and the sheets of all items are on the device. */
async function isKept(where: Page): Promise<void> {
  // In words, because the tests' own types know no browser.
  const kept = () =>
    where.evaluate<boolean>(`(async () => {
      // To open it before the page does would make it, empty.
      if (!(await indexedDB.databases()).some(({ name }) => name === 'fairlead-bench')) return false;
      const shell = await (await caches.open('fairlead-shell')).match('/bench');
      const rows = await new Promise((resolve) => {
        const asked = indexedDB.open('fairlead-bench');
        asked.onsuccess = () => {
          const count = asked.result.transaction('kept').objectStore('kept').count();
          asked.result.close();
          count.onsuccess = () => resolve(count.result);
        };
      });
      return shell !== undefined && rows >= 4;
    })()`);
  await expect.poll(kept, { timeout: 30_000 }).toBe(true);
}

const clockPart = (where = page) => where.getByRole('region', { name: 'Your clock' });
const unsent = (where = page) => where.getByRole('region', { name: 'Notice' });
const startRows = (where = page) => where.getByRole('button', { name: /^Start: / });

interface Started {
  id: string;
  title: string;
}
/** Starts the clock of the nth item that can be started, past its cautions. */
async function startOn(nth: number, where = page): Promise<Started> {
  const row = startRows(where).nth(nth);
  const sheet = row.locator('..').getByRole('link', { name: /^Sheet of/ });
  const title = ((await sheet.textContent()) ?? '').replace('Sheet of ', '');
  const id = new URL((await sheet.getAttribute('href')) ?? '', where.url()).searchParams.get(
    'item',
  );
  await row.click();
  const read = where.getByRole('button', { name: 'Read. Start the clock' });
  await expect(read.or(clockPart(where).getByText(title, { exact: true }))).toBeVisible();
  if (await read.isVisible()) await read.click();
  await expect(clockPart(where)).toContainText(title);
  return { id: id ?? '', title };
}

/** Initials every line of the item's list that has none, one by one. */
async function initialLines(where = page): Promise<void> {
  const lines = where.getByRole('button', { name: /^Initial line/ });
  for (let left = await lines.count(); left > 0; left -= 1) {
    await lines.first().click();
    await expect(lines).toHaveCount(left - 1);
  }
}

interface Item {
  title: string;
  state: string;
  /** By whoever asks. */
  cautionsRead: boolean;
  events: { kind: string; workDone: string; at: string }[];
  findings: { title: string; photos: { id: string }[] }[];
  checklist: { initials: string | null }[];
  order: { openLines: { words: string; state: string; by: { name: string } }[] };
  stretches: { startedAt: string; endedAt: string | null; person: { name: string } }[];
}
/** What the shop itself has, asked beside the line. */
async function atTheShop({ id }: Pick<Started, 'id'>): Promise<Item> {
  const response = await page.request.post(`http://localhost:${shopPort()}/graphql`, {
    headers: { 'apollo-require-preflight': '1' },
    data: {
      query: `query($id: ID!) { node(id: $id) { ... on WorkItem { title state cautionsRead events { kind workDone at } checklist { initials } order { openLines { words state by { name } } }
        findings { title photos { id } } stretches { startedAt endedAt person { name } } } } }`,
      variables: { id },
    },
  });
  const { data } = (await response.json()) as { data: { node: Item } };
  return data.node;
}
const mine = ({ stretches }: Item) =>
  stretches.filter(({ person }) => person.name === 'Marta Quillby');

/** How much the device still holds for the shop. */
const held = (where: Page) =>
  where.evaluate<number>(`new Promise((resolve) => {
    const asked = indexedDB.open('fairlead');
    asked.onsuccess = () => {
      const count = asked.result.transaction('outbox').objectStore('outbox').count();
      asked.result.close();
      count.onsuccess = () => resolve(count.result);
    };
  })`);
async function everythingSent(where = page): Promise<void> {
  await expect.poll(() => held(where), { timeout: 30_000 }).toBe(0);
  await expect(where.getByText(/not sent yet|cannot be reached/)).toHaveCount(0);
}

test('With the network down the bench opens, says who it is and how old the list is', async () => {
  line.cut();
  await page.reload();
  await expect(page.getByText('Marta Quillby').first()).toBeVisible();
  await expect(startRows().first()).toBeVisible();
  await expect(unsent()).toContainText(/cannot be reached from here\. This is the work as of \d/);
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .nth(1)
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  await page.reload();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('item.png'), fullPage: true });
});

const nothing: Started = { id: '', title: '' };
/** With how many stretches of theirs each had before. */
const did = { first: nothing, second: nothing, before: [0, 0] };
test('A mechanic clocks, switches, finds and finishes, through reloads and a telephone that restarts', async () => {
  await page.goto(bench());
  did.first = await startOn(0);
  await page.reload();
  await expect(clockPart()).toContainText(did.first.title);
  await expect(unsent()).toContainText(`Start: ${did.first.title}`);
  did.second = await startOn(1);
  // Other journeys may have been at them.
  for (const [index, each] of [did.first, did.second].entries())
    did.before[index] = mine(await atTheShop(each)).length;

  await page.getByRole('link', { name: 'Found something' }).click();
  const photo = await sharp({
    create: { width: 640, height: 480, channels: 3, background: '#777' },
  })
    .jpeg()
    .toBuffer();
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'worn.jpg', mimeType: 'image/jpeg', buffer: photo });
  await page.getByLabel('What it is').fill('Worn bushing, found away from the network');
  await page.getByRole('button', { name: 'Note it' }).click();
  await expect(page.getByRole('heading', { name: 'Photo on the way' })).toBeVisible();

  await phone.close();
  await turnOn();
  await page.goto(bench());
  await expect(page.getByText('Marta Quillby').first()).toBeVisible();
  await expect(clockPart()).toContainText(did.second.title);
  await expect(unsent()).toContainText(/things are not sent yet/);
  await page.screenshot({ path: test.info().outputPath('restarted.png'), fullPage: true });
  await axeFree(page);

  await page.getByRole('link', { name: `Sheet of ${did.first.title}`, exact: true }).click();
  await page.getByText('It has to wait').click();
  await page.getByLabel('More of it').fill('Seal ordered');
  await page
    .getByRole('button', { name: /It waits/i })
    .last()
    .click();
  await expect(startRows().filter({ hasText: did.first.title })).toContainText('waiting, not sent');

  await page
    .getByRole('listitem')
    .getByRole('link', { name: `Sheet of ${did.second.title}` })
    .or(page.getByRole('listitem').getByRole('link').filter({ hasText: did.second.title }))
    .first()
    .click();
  await expect(page.getByRole('region', { name: 'Checklist' })).toBeVisible();
  await initialLines();
  await page
    .locator('summary')
    .filter({ hasText: /^Opened and removed/ })
    .click();
  await page.getByText('Note what you opened or took off').click();
  await page
    .locator('form', { has: page.getByRole('button', { name: 'Note it' }) })
    .getByLabel('What', { exact: true })
    .fill('Fairing of the fin tip');
  await page.getByRole('button', { name: 'Note it' }).click();
  const open = page.getByRole('listitem').filter({ hasText: 'Fairing of the fin tip' });
  await expect(open).toContainText('not sent yet');
  await page
    .getByLabel('Work done')
    .fill('Bushing replaced by the maker’s manual, play within limits.');
  await page.getByRole('button', { name: 'Stop the clock: it is done' }).click();
  await expect(clockPart()).toContainText('Your clock is stopped');
  await page.reload();
  await expect(clockPart()).toContainText('Your clock is stopped');
});

test('When the network is back all of it is there, once', async () => {
  line.lie();
  await page.getByRole('button', { name: 'Try now' }).click();
  // The shop takes it, and its answer is lost: it is sent again.
  await expect.poll(async () => (await atTheShop(did.first)).cautionsRead).toBe(true);
  line.mend();
  await page.reload();
  await everythingSent();
  const [first, second] = [await atTheShop(did.first), await atTheShop(did.second)];
  expect([mine(first).length, mine(second).length]).toEqual(did.before.map((had) => had + 1));
  expect(mine(first).at(-1)?.endedAt).toBe(mine(second).at(-1)?.startedAt);
  expect(mine(second).at(-1)?.endedAt).not.toBeNull();
  expect(first.events.filter(({ kind }) => kind === 'waiting')).toHaveLength(1);
  expect(second.state).toBe('done');
  expect(second.events.filter(({ kind }) => kind === 'done')).toHaveLength(1);
  const noted = second.order.openLines.filter(({ words }) => words === 'Fairing of the fin tip');
  expect(noted).toMatchObject([{ state: 'open', by: { name: 'Marta Quillby' } }]);
  expect(second.checklist.every(({ initials }) => initials !== null)).toBe(true);
  const findings = second.findings.filter(({ title }) => title.startsWith('Worn bushing'));
  expect(findings).toHaveLength(1);
  await expect
    .poll(
      async () =>
        (await atTheShop(did.second)).findings.find(({ title }) => title.startsWith('Worn bushing'))
          ?.photos.length,
      { timeout: 30_000 },
    )
    .toBe(1);
});

test('Two tabs of one device show the same clock, and what they note is there once and in order', async () => {
  await page.goto(bench());
  const other = await phone.newPage();
  await other.goto(bench());
  await expect(startRows(other).first()).toBeVisible();
  line.cut();
  const a = await startOn(0);
  await expect(clockPart(other)).toContainText(a.title);
  const b = await startOn(1, other);
  await expect(clockPart()).toContainText(b.title);
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(clockPart(other)).toContainText('Your clock is stopped');
  const before = [mine(await atTheShop(a)).length, mine(await atTheShop(b)).length];
  line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await everythingSent();
  await everythingSent(other);
  const [atA, atB] = [mine(await atTheShop(a)), mine(await atTheShop(b))];
  expect([atA.length, atB.length]).toEqual(before.map((count) => count + 1));
  expect(atA.at(-1)?.endedAt).toBe(atB.at(-1)?.startedAt);
  expect(atB.at(-1)?.endedAt).not.toBeNull();
  await other.close();
});

test('A device whose storage is full says so, and what was noted still goes', async () => {
  await page.goto(bench());
  await expect(startRows().first()).toBeVisible();
  // As a full storage does it: what is put is taken, and its transaction ends without it. Chromium's own limit lets small
  // rows through.
  await page.evaluate(`(() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = function (...given) {
      const asked = put.apply(this, given);
      this.transaction.abort();
      return asked;
    };
    window.mendStorage = () => { IDBObjectStore.prototype.put = put; };
  })()`);
  line.cut();
  const item = await startOn(0);
  await expect(unsent()).toContainText('This device keeps nothing more');
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('full.png'), fullPage: true });
  const before = mine(await atTheShop(item)).length;
  line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await everythingSent();
  await expect(unsent()).toHaveCount(0);
  expect(mine(await atTheShop(item))).toHaveLength(before + 1);
  await page.evaluate('mendStorage()');
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(clockPart()).toContainText('Your clock is stopped');
});

test('A telephone whose clock is wrong by a day shows the right time, and the shop has the right stretch', async () => {
  const wrong = await phone.newPage();
  await wrong.addInitScript((by) => {
    const Right = Date;
    class Wrong extends Right {
      constructor(...given: unknown[]) {
        if (given.length === 0) super(Right.now() + by);
        else super(...(given as [number]));
      }
      static override now() {
        return Right.now() + by;
      }
    }
    globalThis.Date = Wrong as DateConstructor;
  }, NIGHT_MS);
  await wrong.goto(bench());
  await expect(startRows(wrong).first()).toBeVisible();
  line.cut();
  const began = Date.now();
  const item = await startOn(0, wrong);
  await expect(clockPart(wrong)).toContainText('0:00');
  await wrong.reload();
  await expect(clockPart(wrong)).toContainText('0:00');
  await wrong.getByRole('button', { name: 'Stop', exact: true }).click();
  const ended = Date.now();
  line.mend();
  await wrong.getByRole('button', { name: 'Try now' }).click();
  await everythingSent(wrong);
  const last = mine(await atTheShop(item)).at(-1);
  // To two seconds: as steadily as the difference of the clocks is known.
  expect(Math.abs(Date.parse(last?.startedAt ?? '') - began)).toBeLessThan(10_000);
  expect(Math.abs(Date.parse(last?.endedAt ?? '') - ended)).toBeLessThan(10_000);
  await wrong.close();
});

test('Somebody else finished the item meanwhile: that is said with who and when, and nothing written is lost', async ({
  browser,
}) => {
  await page.goto(bench());
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  const title = (await page.getByRole('heading', { level: 1 }).textContent()) ?? '';
  const where = new URL(page.url());
  line.cut();
  await initialLines();
  await page.getByLabel('Work done').fill('Done from the ladder, with no signal there.');
  await page.getByRole('button', { name: 'It is done' }).click();
  // The initials before it, and that it is done.
  await expect(unsent()).toContainText(/things are not sent yet/);
  await expect(unsent()).toContainText(`: ${title}`);

  const inspector = await (await browser.newContext()).newPage();
  await signIn(inspector, 'inspector');
  await inspector.goto(where.pathname + where.search);
  await expect(inspector.getByLabel('Work done')).toBeVisible();
  await initialLines(inspector);
  await inspector.getByLabel('Work done').fill('Done at the bench.');
  await inspector.getByRole('button', { name: 'It is done' }).click();
  await expect
    .poll(async () => (await atTheShop({ id: where.searchParams.get('item') ?? '' })).state)
    .toBe('done');
  await inspector.context().close();

  line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await expect(unsent()).toContainText(
    /Not taken\..*Hesper Lyle said that it is done at .*“Done at the bench\.”/,
  );
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('conflict.png'), fullPage: true });
  // Opened again, it goes on from what was written before.
  await page.goto(`${bench()}${where.search}`);
  await page.getByRole('button', { name: 'Not finished after all: open it again' }).click();
  await expect(page.getByLabel('Work done')).toBeVisible();
});

test('Who signs out leaves nothing of the shop on the device', async () => {
  await page.goto(`http://localhost:${shopPort()}/bench`);
  await expect(startRows().first()).toBeVisible();
  await isKept(page);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL('**/sign-in');
  const left = () =>
    page.evaluate<string[]>(
      'Promise.all([caches.keys(), indexedDB.databases()]).then(([kept, bases]) => [...kept, ...bases.map(({ name }) => name)])',
    );
  expect(await left()).toEqual(['fairlead']);
});
