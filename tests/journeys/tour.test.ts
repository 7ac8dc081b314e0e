import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { leave, signIn } from './people.ts';

test.afterAll(leave);

/**
 * The pictures of README's tour. In a normal run each pictured page is looked up and has to show what its
 * picture shows; with FAIRLEAD_TOUR=1 and a shop that nobody has touched the pictures are taken anew:
 * in tests/, `FAIRLEAD_TOUR=1 npx playwright test --config journeys/playwright.config.ts tour`.
 */
const folder = fileURLToPath(new URL('../../docs/tour', import.meta.url));
const taking = process.env['FAIRLEAD_TOUR'] === '1';
const MOST = 40_000;
const MOST_TOGETHER = 280_000;

test.describe.configure({ timeout: 180_000 });

const desk = { width: 1280, height: 800 };
const hand = { width: 360, height: 760 };

async function personAt(browser: Browser, who: Parameters<typeof signIn>[1], size: typeof desk) {
  const context = await browser.newContext({
    viewport: size,
    colorScheme: 'light',
    deviceScaleFactor: size === hand ? 1.5 : 1,
  });
  const page = await context.newPage();
  await signIn(page, who);
  return page;
}

/** A picture of what a reader sees first, as small as still reads well. */
async function take(page: Page, name: string): Promise<void> {
  await page.waitForLoadState('networkidle');
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  if (!taking) return;
  const shot = await page.screenshot({ animations: 'disabled', caret: 'hide' });
  for (const quality of [82, 70, 58, 46]) {
    const small = await sharp(shot).webp({ quality, effort: 6 }).toBuffer();
    if (small.length > MOST) continue;
    mkdirSync(folder, { recursive: true });
    writeFileSync(path.join(folder, `${name}.webp`), small);
    return;
  }
  throw new Error(`The picture of ${name} is over ${MOST} bytes at every quality.`);
}

const pictures = ['floor', 'quote', 'owner', 'bench', 'records', 'invoice', 'hours'];

test('The floor says what is in the hangar and what it waits for', async ({ browser }) => {
  const page = await personAt(browser, 'manager', desk);
  await page.goto('/floor');
  await expect(page.getByRole('link', { name: 'QQ-117', exact: true })).toBeVisible();
  await expect(page.getByRole('main')).toContainText('Taken today');
  // Departures of aircraft that are worked on carry what was promised when they came.
  await expect(
    page
      .getByRole('button', { name: /leaves stand/ })
      .filter({ hasText: 'promised, four in five:' })
      .first(),
  ).toBeVisible();
  await take(page, 'floor');
  await page.context().close();
});

test('A quote is a parts list with its hours and its price as dimensions', async ({ browser }) => {
  const page = await personAt(browser, 'front desk', desk);
  await page.goto('/desk');
  await page
    .getByRole('link', { name: /QQ-117, Exhaust collector cracked/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(page.getByRole('main')).toContainText('Exhaust collector, Dipper 2');
  await expect(page.getByRole('main')).toContainText('1,180.00');
  await take(page, 'quote');

  await page.goto('/books');
  await page.getByRole('link', { name: /^Invoice 411/ }).click();
  await expect(page.getByRole('table', { name: 'What is billed, before tax' })).toContainText(
    '96.00',
  );
  await expect(page.getByRole('main')).toContainText('516.56');
  await take(page, 'invoice');

  await page.goto('/hours');
  await expect(page.getByRole('main')).toContainText('How honest we are');
  await take(page, 'hours');
  await page.context().close();
});

test('The owner sees the photo, the reason, the price and the choice on a telephone', async ({
  browser,
}) => {
  const front = await personAt(browser, 'front desk', desk);
  await front.goto('/desk');
  const orders = front.getByRole('table', { name: 'Orders' });
  await orders
    .getByRole('link', { name: /QQ-117/ })
    .first()
    .click();
  const part = front.getByRole('region', { name: 'The owner’s page' });
  await part.getByRole('button', { name: 'Make a link' }).click();
  const link = await part.getByRole('textbox', { name: /Copy it now/ }).inputValue();
  await front.context().close();
  const page = await (
    await browser.newContext({ viewport: hand, colorScheme: 'light', deviceScaleFactor: 1.5 })
  ).newPage();
  const scripts: string[] = [];
  page.on('request', (request) => {
    if (request.resourceType() === 'script') scripts.push(request.url());
  });
  await page.goto(new URL(link).pathname);
  await expect(page.getByRole('heading', { level: 1 })).toContainText('QQ-117');
  const finding = page.getByRole('article', { name: /Exhaust collector cracked/ });
  await expect(finding.getByRole('img').first()).toBeAttached();
  await expect(finding).toContainText('What it means');
  expect(scripts).toEqual([]);
  // Half a kilobyte in the page itself, which asks for news; everything else works without it.
  const own = await page.locator('script').allTextContents();
  expect(own.join('').length).toBeLessThan(1000);
  await finding.evaluate((card) => card.scrollIntoView());
  await expect(finding.getByRole('img').first()).not.toHaveJSProperty('naturalWidth', 0);
  await take(page, 'owner');
  await page.context().close();
});

test('The bench starts, switches and stops the clock with one touch', async ({ browser }) => {
  const page = await personAt(browser, 'mechanic', hand);
  await page.goto('/bench');
  await expect(page.getByRole('region', { name: 'Your clock' })).toBeVisible();
  await expect(page.getByRole('heading', { name: /QQ-188/ })).toBeVisible();
  await take(page, 'bench');
  await page.context().close();
});

test('The records say what is missing before anybody signs', async ({ browser }) => {
  const page = await personAt(browser, 'inspector', desk);
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  await expect(page.getByRole('region', { name: 'What is missing' })).toBeVisible();
  await take(page, 'records');
  await page.context().close();
});

test('Every picture is there, and together they are small', () => {
  const sizes = pictures.map((name) => statSync(path.join(folder, `${name}.webp`)).size);
  expect(Math.max(...sizes)).toBeLessThanOrEqual(MOST);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(MOST_TOGETHER);
});
