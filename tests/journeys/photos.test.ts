import { randomBytes } from 'node:crypto';
import { type BrowserContext, expect, type Locator, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { heic } from '../api/work/pictures.ts';
import { axeFree, signIn } from './people.ts';

test.describe.configure({ mode: 'serial' });

let context: BrowserContext;
let page: Page;
let photo: Buffer;
let item: string;
const title = 'Chafed line behind the firewall';

test.beforeAll(async ({ browser }) => {
  // Noise, because it cannot be made small: 1.4 MB, three pieces.
  photo = await sharp(randomBytes(1400 * 1000 * 3), {
    raw: { width: 1400, height: 1000, channels: 3 },
  })
    .jpeg({ quality: 95 })
    .toBuffer();
  context = await browser.newContext({ viewport: { width: 360, height: 740 } });
  page = await context.newPage();
});
test.afterAll(async () => {
  await context.close();
});

const way = () => page.getByRole('region', { name: /on the way/ });
const jpeg = (name: string) => ({ name, mimeType: 'image/jpeg', buffer: photo });
const seen = (image: Locator) =>
  expect
    .poll(() => image.evaluate((one) => ('naturalWidth' in one ? Number(one.naturalWidth) : 0)))
    .toBeGreaterThan(0);

/** Chooses files on the sheet of an item's finding and says what it is; does not note it yet. */
async function found(what: string, files: { name: string; mimeType: string; buffer: Buffer }[]) {
  await page.getByRole('link', { name: 'Found something' }).click();
  await page.locator('input[type=file]').setInputFiles(files);
  await page.getByLabel('What it is').fill(what);
}

test('A mechanic sees the photo at once, and notes the finding before the photo is through', async () => {
  await signIn(page, 'mechanic');
  await page.goto('/bench');
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  item = page.url();
  // The line breaks after the preview and two pieces, before the third.
  let pieces = 0;
  await page.route('**/uploads/*', (route) => {
    if (route.request().method() !== 'PATCH') return route.continue();
    pieces += 1;
    return pieces > 3 ? route.abort('connectionreset') : route.continue();
  });
  await found(title, [jpeg('line.jpg')]);
  await seen(page.getByRole('img', { name: 'Photo 1' }));
  await expect(page.getByText(/sent when the finding is noted/)).toBeVisible();
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('picked.png'), fullPage: true });
  const noted = page.waitForResponse(
    (response) => (response.request().postData() ?? '').includes('NoteFinding') && response.ok(),
  );
  await page.getByRole('button', { name: 'Note it' }).click();
  expect(JSON.stringify(await (await noted).json())).not.toContain('Refusal');
  await expect(way()).toContainText(/1\.0 of 1\.\d MB sent; seen small already; waits for signal/);
  await expect(page.getByText(/not sent yet.*Photo: Chafed/)).toBeVisible();
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('cut.png'), fullPage: true });
});

test('While the photo is on its way, others see it small with its finding', async ({ browser }) => {
  const office = await browser.newContext();
  const desk = await office.newPage();
  await signIn(desk, 'inspector');
  await desk.goto(item);
  const image = desk.getByRole('img', { name: new RegExp(`Photograph: ${title}`) }).first();
  await seen(image);
  expect(await image.getAttribute('src')).toMatch(/\/thumb\?preview$/);
  await office.close();
});

test('After a reload the photo is still seen, and goes on from where it was', async () => {
  await page.goto(item);
  await expect(page.getByRole('heading', { name: 'Found while at it' })).toBeVisible();
  await expect(page.getByRole('heading', { name: new RegExp(title) })).toBeVisible();
  await seen(way().getByRole('img', { name: new RegExp(title) }));
  await expect(way()).toContainText('waits for signal');
  await page.screenshot({ path: test.info().outputPath('reloaded.png'), fullPage: true });
  const from: number[] = [];
  page.on('request', (request) => {
    if (request.method() === 'PATCH' && request.url().includes('/uploads/'))
      from.push(Number(request.headers()['upload-offset']));
  });
  await page.unroute('**/uploads/*');
  await page.getByRole('button', { name: 'Try now' }).click();
  await expect(way()).toHaveCount(0, { timeout: 30_000 });
  expect(from[0]).toBe(2 * 512 * 1024);
  expect(from).toEqual([...from].sort((one, other) => one - other));
  const small = page.locator('summary', {
    has: page.getByRole('img', { name: /Photograph: Chafed/ }),
  });
  await small.press('Enter');
  const large = page.getByRole('figure').getByRole('img', { name: `Photograph: ${title}` });
  await seen(large);
  await expect(large).not.toHaveAttribute('src', /preview/);
  await seen(large);
  await expect(page.getByRole('link', { name: 'Whole, 1400 × 1000 pixels' })).toBeVisible();
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('joined.png'), fullPage: true });
});

test('With no network a photo in HEIC waits, says that it cannot be shown here, and comes as JPEG', async () => {
  await page.goto(item);
  await expect(page.getByRole('link', { name: 'Found something' })).toBeVisible();
  await context.setOffline(true);
  await found('Loose clamp', [{ name: 'IMG_0001.HEIC', mimeType: 'image/heic', buffer: heic }]);
  await expect(page.getByText('HEIC: this browser shows none; it is sent')).toBeVisible();
  await page.getByRole('button', { name: 'Note it' }).click();
  await expect(way()).toContainText(/1 kB, nothing sent yet/);
  await expect(page.getByText(/not sent yet.*Finding: Loose clamp/)).toBeVisible();
  await expect(way()).toContainText('waits for signal');
  await context.setOffline(false);
  await expect(way()).toHaveCount(0, { timeout: 30_000 });
  await page.goto(item);
  await seen(page.getByRole('img', { name: 'Photograph: Loose clamp' }).first());
});

test('What is no photo is refused with what it is, and the finding stands without it', async () => {
  await page.goto(item);
  await found('Missing placard', [
    { name: 'photo.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('%PDF-1.7 not a photo') },
  ]);
  await page.getByRole('button', { name: 'Note it' }).click();
  await expect(
    page.getByText(/Not taken\..*The file is a PDF; needed is a photo as JPEG/),
  ).toBeVisible();
  await axeFree(page);
  await page.getByRole('button', { name: 'Throw away' }).click();
  await expect(page.getByText('Not taken.')).toHaveCount(0);
  await page.goto(item);
  await expect(page.getByRole('heading', { name: /Missing placard/ })).toBeVisible();
});

test('With no network a photo is marked while it waits, and the marks come with it', async () => {
  await page.goto(item);
  await expect(page.getByRole('link', { name: 'Found something' })).toBeVisible();
  await context.setOffline(true);
  const bent = 'Bent tab at the baffle';
  await found(bent, [jpeg('tab.jpg')]);
  await page.getByRole('button', { name: 'Note it' }).click();
  await way()
    .getByRole('button', { name: new RegExp(`^Mark it.*${bent}`) })
    .click();
  await page.getByRole('radio', { name: /^Words/ }).check();
  await page.getByLabel('The words').fill('bent here');
  await page.getByRole('application', { name: /^Place on the photo/ }).press('Enter');
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('marking.png'), fullPage: true });
  await page.getByRole('button', { name: 'Keep the marks' }).click();
  await expect(way()).toContainText('A mark goes with it. Marked: bent here');
  await page.screenshot({ path: test.info().outputPath('marked.png'), fullPage: true });
  // The telephone is started again in the cellar.
  await page.goto(item);
  await expect(way()).toContainText('A mark goes with it. Marked: bent here');
  await context.setOffline(false);
  await expect(way()).toHaveCount(0, { timeout: 30_000 });
  await page
    .locator('summary', { has: page.getByRole('img', { name: new RegExp(bent) }) })
    .first()
    .press('Enter');
  await expect(page.getByRole('figure').filter({ hasText: 'Marked: bent here' })).toBeVisible();
});
