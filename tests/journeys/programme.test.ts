import { readFileSync } from 'node:fs';
import { Readable } from 'node:stream';
import { expect, type Page, test } from '@playwright/test';
import { verifyArchive } from '../../packages/proof/src/index.ts';
import { axeFree, signIn, signInInstead } from './people.ts';

/** What falls due on an aircraft: seen before it is quoted, quoted with one touch, recorded when done; its records to take along. */
test.describe.configure({ mode: 'serial', timeout: 120_000 });

let page: Page;
test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 860 } })).newPage();
});
test.afterAll(() => page.context().close());

test('The front desk sees what falls due as soon as it names the aircraft', async () => {
  await signIn(page, 'front desk');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill('QQ-163');
  await page.getByRole('option', { name: /QQ-163/ }).click();
  const ahead = page.getByRole('region', { name: 'What falls due on QQ-163' });
  await expect(ahead.getByRole('link')).toBeVisible();
  await axeFree(page);
  await ahead.getByRole('link').click();
  await expect(page.getByRole('heading', { level: 1, name: 'Records of QQ-163' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'What falls due' })).toContainText('91.409');
});

test('What is ticked becomes one drafted quote', async () => {
  const due = page.getByRole('region', { name: 'What falls due' });
  const ticks = due.getByRole('checkbox');
  await expect(ticks.first()).toBeVisible();
  await ticks.first().check();
  await due.getByRole('button', { name: /^Quote what is ticked to/ }).click();
  await due.getByRole('link', { name: 'The drafted quote' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(page.getByText('draft').first()).toBeVisible();
  await expect(page.getByText('QQ-163').filter({ visible: true }).first()).toBeVisible();
});

test('The inspector records that it was done, and it falls due later', async () => {
  await signInInstead(page, 'inspector');
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-163, 50-hour oil service/ }).click();
  await page.getByRole('link', { name: 'All records of QQ-163' }).click();
  const due = page.getByRole('region', { name: 'What falls due' });
  const line = due.getByRole('listitem').filter({ hasText: '91.409(a)' }).first();
  await line.locator('summary').click();
  const form = line.getByRole('form');
  const today = new Date().toISOString().slice(0, 10);
  await form.getByLabel('Done on').fill(today);
  await form.getByLabel('How it was complied with').fill('Annual by the maker’s list, all groups');
  const newest = page.getByRole('table', { name: 'Read last' }).getByRole('row').nth(1);
  const [, hours = ''] = /([\d.]+) h$/.exec((await newest.textContent()) ?? '') ?? [];
  await form.getByLabel('Time in service then').fill(hours);
  await form.getByRole('button', { name: 'It was done', exact: true }).click();
  await expect(line).toContainText(/36\d d|37\d d|38\d d|39\d d/);
  await page.setViewportSize({ width: 360, height: 860 });
  await axeFree(page);
  await page.setViewportSize({ width: 1440, height: 860 });
});

test('A directive is entered with its number, its revision and the shop’s task, and can then be quoted', async () => {
  const due = page.getByRole('region', { name: 'What falls due' });
  await due.locator('summary').filter({ hasText: 'Add something that falls due' }).click();
  const form = due.getByRole('form', { name: 'Something that falls due' });
  await form.getByLabel('directive').check();
  await form.getByLabel('every so many hours, months, landings …').check();
  await form.getByLabel('Name', { exact: true }).fill('Look at the throttle linkage');
  await form.getByLabel('Where its terms stand').fill('Paragraph (g), invented');
  await form.getByRole('textbox', { name: 'Every so many hours' }).fill('50');
  await form.getByRole('button', { name: 'Add it' }).click();
  await expect(form.getByRole('alert')).toContainText('A directive is named by its number');
  await form.getByLabel('Number', { exact: true }).fill('2031-04-07');
  await form.getByLabel('Revision').fill('A');
  await form.getByRole('combobox', { name: /The shop’s task for it/ }).fill('oil');
  await form.getByRole('listbox').getByRole('option').first().click();
  await expect(form).toContainText('Quoted as:');
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('form.png'), fullPage: true });
  await page.setViewportSize({ width: 360, height: 860 });
  await axeFree(page);
  await page.screenshot({ path: test.info().outputPath('form-360.png'), fullPage: true });
  await page.setViewportSize({ width: 1440, height: 860 });
  await form.getByRole('button', { name: 'Add it' }).click();
  await expect(
    due.getByRole('listitem').filter({ hasText: 'Look at the throttle linkage' }),
  ).toContainText('2031-04-07 · A');
  await signInInstead(page, 'front desk');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill('QQ-163');
  await page.getByRole('option', { name: /QQ-163/ }).click();
  await page.getByRole('link', { name: /falls due on QQ-163$/ }).click();
  await expect(due.getByRole('checkbox', { name: /Look at the throttle linkage/ })).toBeVisible();
});

test('The records come as one archive, which proves itself without the shop', async () => {
  const link = page.getByRole('link', { name: 'Export the records of QQ-163' });
  const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
  const bytes = readFileSync(await download.path());
  const whole = await verifyArchive(Readable.from([bytes]));
  expect(whole).toMatchObject({ holds: true });
  expect(whole.entries).toBeGreaterThan(0);
  const middle = Math.floor(bytes.length / 2);
  bytes[middle] = (bytes[middle] ?? 0) ^ 1;
  expect(await verifyArchive(Readable.from([bytes]))).toMatchObject({ holds: false });
});
