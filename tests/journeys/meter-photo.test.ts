import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { axeFree, signIn, signInInstead } from './people.ts';

/** A meter is read at the aircraft with a telephone: somebody types the figure, its photo is kept beside it as evidence. */
test.describe.configure({ mode: 'serial', timeout: 120_000 });

const TAIL = 'QQ-131';
let page: Page;
let photo: Buffer;
let address = '';
test.beforeAll(async ({ browser }) => {
  // Five digits of a meter, drawn: nothing reads them but people.
  const drawn = `<svg xmlns="http://www.w3.org/2000/svg" width="1600" height="900"><rect width="100%" height="100%" fill="#222"/>
    <text x="800" y="540" font-size="280" font-family="monospace" fill="#eee" text-anchor="middle">0123.4</text></svg>`;
  photo = await sharp(Buffer.from(drawn)).jpeg().toBuffer();
  page = await (await browser.newContext({ viewport: { width: 360, height: 740 } })).newPage();
});
test.afterAll(() => page.context().close());

const times = () => page.getByRole('region', { name: 'Time in service' });
const form = () => times().getByRole('form', { name: 'A meter reading' });
const newest = () => times().getByRole('table', { name: 'Read last' }).getByRole('row').nth(1);
const due = () => page.getByRole('region', { name: 'What falls due' });

async function looks(name: string): Promise<void> {
  for (const width of [1440, 360]) {
    await page.setViewportSize({ width, height: 740 });
    await axeFree(page);
    const beyond = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
    expect(beyond, `${name} at ${width} px`).toBeLessThanOrEqual(0);
    await page.screenshot({ path: test.info().outputPath(`${name}-${width}.png`), fullPage: true });
  }
}

test('The inspector types what the meter shows, and its photo stands beside the figure', async () => {
  // Whoever is at the desk finds the aircraft by its registration; the inspector is handed the address.
  await signIn(page, 'front desk');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill(TAIL);
  await page.getByRole('option', { name: new RegExp(TAIL) }).click();
  await page
    .getByRole('region', { name: `What falls due on ${TAIL}` })
    .getByRole('link')
    .click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText(TAIL);
  address = page.url();
  await signInInstead(page, 'inspector');
  await page.goto(address);
  await times().locator('summary', { hasText: 'Read a meter' }).click();
  const [, before = ''] = /([\d.]+) h$/.exec((await newest().textContent()) ?? '') ?? [];
  const shown = await newest().getByRole('cell').nth(1).textContent();
  const [, last = ''] = /([\d.]+) h/.exec(shown ?? '') ?? [];
  const now = (Number(last) + 1.5).toFixed(1);
  await form().getByLabel('It shows').fill(now);
  await form().getByLabel('Landings in all').fill('5210');
  await form()
    .getByLabel('Photo of the meter')
    .setInputFiles({ name: 'meter.jpg', mimeType: 'image/jpeg', buffer: photo });
  await looks('reading-form');
  await form().getByRole('button', { name: 'Record the reading' }).click();
  await expect(newest()).toContainText(`${(Number(before) + 1.5).toFixed(1)} h`);
  await expect(newest().or(times().getByRole('row').nth(2)).first()).toBeVisible();
  await expect(times()).toContainText('5210 landings in all');
  const link = times().getByRole('link', { name: 'photo of the meter' }).first();
  const answer = await page.request.get((await link.getAttribute('href')) ?? '');
  expect([answer.status(), answer.headers()['content-type']]).toEqual([
    200,
    expect.stringMatching(/^image\//),
  ]);
  const { width } = await sharp(await answer.body()).metadata();
  expect(width).toBeGreaterThan(900);
  await looks('times');
});

test('What is no photo is refused, and no figure is taken without what was to prove it', async () => {
  const rows = await times().getByRole('row').count();
  await form().getByLabel('It shows').fill('9000');
  await form()
    .getByLabel('Photo of the meter')
    .setInputFiles({ name: 'meter.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no photo') });
  await form().getByRole('button', { name: 'Record the reading' }).click();
  await expect(form().getByRole('alert')).toContainText(/photo|image|picture/i);
  expect(await times().getByRole('row').count()).toBe(rows);
});

test('Fewer landings than before are questioned; what falls due by landings says how many are left', async () => {
  await page.reload();
  await times().locator('summary', { hasText: 'Read a meter' }).click();
  const shown = await newest().getByRole('cell').nth(1).textContent();
  const [, last = ''] = /([\d.]+) h/.exec(shown ?? '') ?? [];
  await form().getByLabel('It shows').fill(last);
  await form().getByLabel('Landings in all').fill('5120');
  await form().getByRole('button', { name: 'Record the reading' }).click();
  await expect(form().getByRole('alert')).toContainText(
    'of landings goes backwards: 5120, and it was 5210 before',
  );
  await due().locator('summary', { hasText: 'Add something that falls due' }).click();
  const add = due().getByRole('form', { name: 'Something that falls due' });
  await add.getByLabel('once, not later than').check();
  await add.getByLabel('Name', { exact: true }).fill('Look at the landing gear');
  await add.getByLabel('Where its terms stand').fill('Page 6 of the manual, invented');
  await add.getByRole('combobox', { name: /The shop’s task for it/ }).fill('starter');
  await add
    .getByRole('listbox')
    .getByRole('option', { name: /Replace starter/ })
    .click();
  await add.getByLabel('Limit in landings').fill('5225');
  await looks('due-form');
  await add.getByRole('button', { name: 'Add it' }).click();
  const line = due().getByRole('listitem').filter({ hasText: 'Look at the landing gear' });
  await expect(line).toContainText('5225 landings');
  await expect(line).toContainText('15 landings');
  await expect(line).toContainText('due soon');
  await line.locator('summary').click();
  await expect(line.getByLabel('Aircraft’s landings then')).toBeVisible();
  await looks('due-by-landings');
});

test('The front desk asks what a trip with more landings would mean', async () => {
  await signInInstead(page, 'front desk');
  await page.goto(address);
  await due().locator('summary', { hasText: 'If it goes on a trip' }).click();
  const trip = due().getByRole('form', { name: 'If it goes on a trip' });
  const day = (ahead: number) =>
    new Date(Date.now() + ahead * 86_400_000).toISOString().slice(0, 10);
  await trip.getByLabel('Leaves on').fill(day(1));
  await trip.getByLabel('Back on').fill(day(2));
  await trip.getByLabel('Hours flown until then').fill('1');
  await trip.getByLabel('Landings until then').fill('16');
  await trip.getByRole('button', { name: /^What falls due before/ }).click();
  await expect(trip.getByRole('status')).toContainText('Look at the landing gear');
  await looks('trip');
});

test('and adds what falls due to a draft that is there, with one touch', async () => {
  const tick = (name: string) => due().getByRole('checkbox', { name });
  await tick('Look at the landing gear').uncheck();
  await tick('50-hour oil service').check();
  await due()
    .getByRole('button', { name: /^Quote what is ticked to/ })
    .click();
  await expect(due().getByRole('link', { name: 'The drafted quote' })).toBeVisible();
  await page.goto(address);
  await tick('50-hour oil service').uncheck();
  await tick('Look at the landing gear').check();
  const addTo = due().getByRole('button', { name: /^Add what is ticked to draft \d+/ });
  await looks('drafts');
  await addTo.first().click();
  await due().getByRole('link', { name: 'The drafted quote' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  const offered = page.getByRole('table', { name: /^What is offered/ }).first();
  await expect(offered).toContainText('Replace starter');
  await expect(offered).toContainText('Change engine oil and filter');
  await looks('quote');
});
