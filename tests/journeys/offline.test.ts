import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { axeFree, signIn } from './people.ts';
import {
  clockPart,
  everythingSent,
  initialLines,
  isKept,
  mine,
  type Started,
  startOn,
  startRows,
  type Telephone,
  telephone,
  unsent,
} from './telephone.ts';

/** The bench with the network down: through reloads, a telephone that restarts, two tabs, full storage, a wrong clock. */

test.describe.configure({ mode: 'serial' });

const NIGHT_MS = 24 * 3_600_000;
let phone: Telephone;
let page: Page;

test.beforeAll(async () => {
  phone = await telephone();
  page = await phone.turnOn();
  await signIn(page, 'second mechanic');
  await page.goto(phone.bench);
  await isKept(page);
});
test.afterAll(async () => {
  await phone.close();
});

test('With the network down the bench opens, says who it is and how old the list is', async () => {
  phone.line.cut();
  await page.reload();
  await expect(page.getByText('Marta Quillby').first()).toBeVisible();
  await expect(startRows(page).first()).toBeVisible();
  await expect(unsent(page)).toContainText(
    /cannot be reached from here\. This is the work as of \d/,
  );
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
  await page.goto(phone.bench);
  did.first = await startOn(0, page);
  await page.reload();
  await expect(clockPart(page)).toContainText(did.first.title);
  await expect(unsent(page)).toContainText(`Start: ${did.first.title}`);
  did.second = await startOn(1, page);
  // Other journeys may have been at them.
  for (const [index, each] of [did.first, did.second].entries())
    did.before[index] = mine(await phone.atTheShop(each)).length;

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

  await phone.turnOff();
  page = await phone.turnOn();
  await page.goto(phone.bench);
  await expect(page.getByText('Marta Quillby').first()).toBeVisible();
  await expect(clockPart(page)).toContainText(did.second.title);
  await expect(unsent(page)).toContainText(/things are not sent yet/);
  await page.screenshot({ path: test.info().outputPath('restarted.png'), fullPage: true });
  await axeFree(page);

  await page.getByRole('link', { name: `Sheet of ${did.first.title}`, exact: true }).click();
  await page.getByText('It has to wait').click();
  await page.getByLabel('More of it').fill('Seal ordered');
  await page
    .getByRole('button', { name: /It waits/i })
    .last()
    .click();
  await expect(startRows(page).filter({ hasText: did.first.title })).toContainText(
    'waiting, not sent',
  );

  await page
    .getByRole('listitem')
    .getByRole('link', { name: `Sheet of ${did.second.title}` })
    .or(page.getByRole('listitem').getByRole('link').filter({ hasText: did.second.title }))
    .first()
    .click();
  await expect(page.getByRole('region', { name: 'Checklist' })).toBeVisible();
  await initialLines(page);
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
  await expect(clockPart(page)).toContainText('Your clock is stopped');
  await page.reload();
  await expect(clockPart(page)).toContainText('Your clock is stopped');
});

test('When the network is back all of it is there, once', async () => {
  phone.line.lie();
  await page.getByRole('button', { name: 'Try now' }).click();
  // The shop takes it, and its answer is lost: it is sent again.
  await expect.poll(async () => (await phone.atTheShop(did.first)).cautionsRead).toBe(true);
  phone.line.mend();
  await page.reload();
  await everythingSent(page);
  const [first, second] = [await phone.atTheShop(did.first), await phone.atTheShop(did.second)];
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
        (await phone.atTheShop(did.second)).findings.find(({ title }) =>
          title.startsWith('Worn bushing'),
        )?.photos.length,
      { timeout: 30_000 },
    )
    .toBe(1);
});

test('Two tabs of one device show the same clock, and what they note is there once and in order', async () => {
  await page.goto(phone.bench);
  const other = await phone.context().newPage();
  await other.goto(phone.bench);
  await expect(startRows(other).first()).toBeVisible();
  phone.line.cut();
  const a = await startOn(0, page);
  await expect(clockPart(other)).toContainText(a.title);
  const b = await startOn(1, other);
  await expect(clockPart(page)).toContainText(b.title);
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(clockPart(other)).toContainText('Your clock is stopped');
  const before = [mine(await phone.atTheShop(a)).length, mine(await phone.atTheShop(b)).length];
  phone.line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await everythingSent(page);
  await everythingSent(other);
  const [atA, atB] = [mine(await phone.atTheShop(a)), mine(await phone.atTheShop(b))];
  expect([atA.length, atB.length]).toEqual(before.map((count) => count + 1));
  expect(atA.at(-1)?.endedAt).toBe(atB.at(-1)?.startedAt);
  expect(atB.at(-1)?.endedAt).not.toBeNull();
  await other.close();
});

test('A device whose storage is full says so, and what was noted still goes', async () => {
  await page.goto(phone.bench);
  await expect(startRows(page).first()).toBeVisible();
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
  phone.line.cut();
  const item = await startOn(0, page);
  await expect(unsent(page)).toContainText('This device keeps nothing more');
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('full.png'), fullPage: true });
  const before = mine(await phone.atTheShop(item)).length;
  phone.line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await everythingSent(page);
  await expect(unsent(page)).toHaveCount(0);
  expect(mine(await phone.atTheShop(item))).toHaveLength(before + 1);
  await page.evaluate('mendStorage()');
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await expect(clockPart(page)).toContainText('Your clock is stopped');
});

test('A telephone whose clock is wrong by a day shows the right time, and the shop has the right stretch', async () => {
  const wrong = await phone.context().newPage();
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
  await wrong.goto(phone.bench);
  await expect(startRows(wrong).first()).toBeVisible();
  phone.line.cut();
  const began = Date.now();
  const item = await startOn(0, wrong);
  await expect(clockPart(wrong)).toContainText('0:00');
  await wrong.reload();
  await expect(clockPart(wrong)).toContainText('0:00');
  await wrong.getByRole('button', { name: 'Stop', exact: true }).click();
  const ended = Date.now();
  phone.line.mend();
  await wrong.getByRole('button', { name: 'Try now' }).click();
  await everythingSent(wrong);
  const last = mine(await phone.atTheShop(item)).at(-1);
  // To two seconds: as steadily as the difference of the clocks is known.
  expect(Math.abs(Date.parse(last?.startedAt ?? '') - began)).toBeLessThan(10_000);
  expect(Math.abs(Date.parse(last?.endedAt ?? '') - ended)).toBeLessThan(10_000);
  await wrong.close();
});

test('Somebody else finished the item meanwhile: that is said with who and when, and nothing written is lost', async ({
  browser,
}) => {
  await page.goto(phone.bench);
  // What the device kept may be older than the stop just before: the shop's own list is waited for.
  await expect(clockPart(page)).toContainText('Your clock is stopped');
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  const title = (await page.getByRole('heading', { level: 1 }).textContent()) ?? '';
  const where = new URL(page.url());
  phone.line.cut();
  await initialLines(page);
  await page.getByLabel('Work done').fill('Done from the ladder, with no signal there.');
  await page.getByRole('button', { name: 'It is done' }).click();
  // The initials before it, and that it is done.
  await expect(unsent(page)).toContainText(/things are not sent yet/);
  await expect(unsent(page)).toContainText(`: ${title}`);

  const inspector = await (await browser.newContext()).newPage();
  await signIn(inspector, 'inspector');
  await inspector.goto(where.pathname + where.search);
  await expect(inspector.getByLabel('Work done')).toBeVisible();
  await initialLines(inspector);
  await inspector.getByLabel('Work done').fill('Done at the bench.');
  await inspector.getByRole('button', { name: 'It is done' }).click();
  await expect
    .poll(async () => (await phone.atTheShop({ id: where.searchParams.get('item') ?? '' })).state)
    .toBe('done');
  await inspector.context().close();

  phone.line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await expect(unsent(page)).toContainText(
    /Not taken\..*Hesper Lyle said that it is done at .*“Done at the bench\.”/,
  );
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('conflict.png'), fullPage: true });
  // Opened again, it goes on from what was written before.
  await page.goto(`${phone.bench}${where.search}`);
  await page.getByRole('button', { name: 'Not finished after all: open it again' }).click();
  await expect(page.getByLabel('Work done')).toBeVisible();
});

test('Who signs out leaves nothing of the shop on the device', async () => {
  await page.goto(phone.beside);
  await expect(startRows(page).first()).toBeVisible();
  await isKept(page);
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.waitForURL('**/sign-in');
  const left = () =>
    page.evaluate<string[]>(
      'Promise.all([caches.keys(), indexedDB.databases()]).then(([kept, bases]) => [...kept, ...bases.map(({ name }) => name)])',
    );
  expect(await left()).toEqual(['fairlead']);
});
