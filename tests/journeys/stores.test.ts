import { expect, type Page, test } from '@playwright/test';
import { press, tabTo } from './by-keyboard.ts';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** A delivery comes in, goes to the work of an aircraft that is here, and a part of it comes back. */
test.describe.configure({ mode: 'serial' });

const batch = 'ZZ-7001';
let page: Page;

test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await signIn(page, 'inspector');
  await page.getByRole('link', { name: 'Stores', exact: true }).click();
});

const list = (name: string) => page.getByRole('table', { name });
const lot = () => list('On the shelves').getByRole('row').filter({ hasText: batch });

test('Whoever takes in a delivery does so by keyboard alone, and sees it on its shelf', async () => {
  await press(page, page.getByRole('button', { name: 'Receive a delivery' }));
  const form = page.getByRole('form', { name: 'Receive a delivery' });
  const part = form.getByRole('combobox', { name: 'Part' });
  await expect(part).toBeFocused();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Receive a delivery' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(part).toBeFocused();
  await page.keyboard.type('hose, 300');
  await expect(form.getByRole('option')).toHaveCount(1);
  await page.keyboard.press('Enter');
  await expect(part).toHaveValue(/Crankcase breather hose/);
  const type = async (label: string, text: string) => {
    await tabTo(page, form.getByLabel(label));
    await page.keyboard.type(text);
  };
  await type('Supplier', 'Kelpline Hose Works');
  await type('Batch or serial', batch);
  await type('Release certificate', 'EB-9901');
  await type('How many', '4');
  await type('What one cost the shop', '41.5');
  // Within the month in which a last day is said in ochre, whatever the day of this run.
  const soon = new Date(Date.now() + 10 * 86_400_000).toISOString();
  // The browser of the tests asks for month, day and year.
  await type('Good until', `${soon.slice(5, 7)}${soon.slice(8, 10)}${soon.slice(0, 4)}`);
  await type('Put to', 'D1');
  await axeFree(page);
  await press(page, form.getByRole('button', { name: 'Take it in' }));
  await expect(page.getByRole('status').filter({ hasText: 'taken in, put to D1' })).toBeVisible();
  await expect(page.getByRole('link', { name: /^D1\s?, 1 lot$/ })).toBeVisible();
  await expect(lot()).toContainText(/(?<![\d.])4\s*each/);
  await expect(lot()).toContainText(/(9|10|11) days left/);
  await expect(lot()).toContainText('take this lot first');
});

test('A quantity that is not there is refused in the field, and what is there is issued', async () => {
  await lot()
    .getByRole('button', { name: /^Issue / })
    .click();
  const form = page.getByRole('form', { name: /^Issue Crankcase breather hose/ });
  const work = form.getByLabel('For which work');
  const option = await work.locator('option', { hasText: 'QQ-117, 33' }).getAttribute('value');
  await work.selectOption(option);
  await form.getByLabel('How many').fill('5');
  await expect(form).toContainText('5 were given: the lot holds 4.');
  await expect(form.getByRole('button', { name: 'Issue it' })).toBeDisabled();
  await form.getByLabel('How many').fill('1.5');
  await axeFree(page);
  await form.getByRole('button', { name: 'Issue it' }).click();
  await expect(page.getByRole('status').filter({ hasText: 'issued to QQ-117, 33' })).toBeVisible();
  await expect(lot()).toContainText(/(?<![\d.])2\.5\s*each/);
});

test('What the work did not need comes back, and the shelf holds the sum', async () => {
  const out = list('Out on the work').getByRole('row').filter({ hasText: batch });
  await expect(out).toContainText(/(?<![\d.])1\.5\s*each/);
  await out.getByRole('button', { name: /^Return / }).click();
  const form = page.getByRole('form', { name: /^Return Crankcase breather hose/ });
  await expect(form.getByLabel('How many')).toHaveValue('1.5');
  await form.getByLabel('How many').fill('1');
  await form.getByRole('button', { name: 'Return it' }).click();
  await expect(lot()).toContainText(/(?<![\d.])3\.5\s*each/);
  await expect(out).toContainText(/(?<![\d.])0\.5\s*each/);
  await page.getByLabel('Find').fill('no such thing');
  await expect(page.getByText('Nothing in stores is called “no such thing”')).toBeVisible();
  await page.getByLabel('Find').fill(`hose ${batch.toLowerCase()}`);
  await expect(page.getByRole('table', { name: /as asked for/ }).getByRole('row')).toHaveCount(2);
  await page.locator('summary', { hasText: 'Components by serial number' }).click();
  await expect(list('Components by serial number').getByRole('row').nth(1)).toContainText(/QQ-\d/);
  await axeFree(page);
});

test('A lot has a sheet of its own: kept for an order, counted, scrapped, each with its reason', async () => {
  await page.getByLabel('Find').fill(batch);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(
    `Crankcase breather hose, 300 mm, ${batch}`,
  );
  const history = list('What happened to it');
  await expect(history.getByRole('row')).toHaveCount(4);
  await press(page, page.getByRole('button', { name: 'Reserve for an order' }));
  const reserve = page.getByRole('form', { name: /^Reserve / });
  const order = reserve.getByLabel('For which order');
  await order.selectOption({ index: 1 });
  await reserve.getByLabel('How many').fill('4');
  await expect(reserve).toContainText('4 were given: 3.5 are free.');
  await reserve.getByLabel('How many').fill('3');
  await axeFree(page);
  await reserve.getByRole('button', { name: 'Reserve it' }).click();
  await expect(page.getByRole('list', { name: 'Kept for orders' })).toContainText(
    '3 each kept for',
  );
  await page.getByRole('list', { name: 'Kept for orders' }).getByRole('link').click();
  await expect(page.getByRole('region', { name: 'In the stores' })).toContainText(
    '3 each of Crankcase breather hose, 300 mm kept for it in D1',
  );
  await axeFree(page);
  await page.goBack();
  await press(page, page.getByRole('button', { name: 'Give it free' }));
  const free = page.getByRole('form', { name: /^Give free / });
  await free.getByLabel('How many').fill('3');
  await free.getByRole('button', { name: 'Give it free' }).click();
  await expect(page.getByRole('list', { name: 'Kept for orders' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Count', exact: true }).click();
  const count = page.getByRole('form', { name: /^Count / });
  await count.getByLabel('How many are there').fill('3');
  await expect(count.getByRole('button', { name: 'Keep the count' })).toBeDisabled();
  await count.getByLabel('Why it differs').fill('Half a hose was cut off and thrown away');
  await count.getByRole('button', { name: 'Keep the count' }).click();
  await expect(
    page.getByRole('status').filter({ hasText: '3.5 should have been there' }),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Scrap', exact: true }).click();
  const scrap = page.getByRole('form', { name: /^Scrap / });
  await scrap.getByLabel('How many').fill('1');
  await scrap.getByLabel('Why').fill('Chafed in the drawer');
  await scrap.getByRole('button', { name: 'Scrap it' }).click();
  await expect(history.getByRole('row').last()).toContainText(
    'Hesper Lyle · “Chafed in the drawer”',
  );
  await expect(page.getByRole('region', { name: 'Where it went' })).toContainText('QQ-117');
  await axeFree(page);
});

test('A certificate is kept with its lot, and opens where the lot is shown', async () => {
  const keep = page.getByRole('form', { name: 'Keep the certificate' });
  await keep.getByLabel('The certificate, photographed or scanned').setInputFiles({
    name: 'EB-9901.pdf',
    mimeType: 'application/pdf',
    buffer: Buffer.from('no certificate at all'),
  });
  await keep.getByRole('button', { name: 'Keep it with the lot' }).click();
  await expect(keep).toContainText('The document is neither a PDF nor a JPEG by its first bytes');
  await keep.getByLabel('The certificate, photographed or scanned').setInputFiles({
    name: 'EB-9901.pdf',
    mimeType: 'application/pdf',
    buffer: Buffer.from('%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n'),
  });
  await keep.getByRole('button', { name: 'Keep it with the lot' }).click();
  const link = page.getByRole('link', { name: 'EB-9901.pdf' });
  await expect(link).toBeVisible();
  const fetched = await page.request.get((await link.getAttribute('href')) ?? '');
  expect(fetched.headers()['content-type']).toBe('application/pdf');
});
