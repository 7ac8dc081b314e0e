import { expect, type Page, test } from '@playwright/test';
import { press, tabTo } from './by-keyboard.ts';
import { axeFree, signIn } from './people.ts';

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

test('What differs in a part is noted at its lots, and goes when it no longer holds', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 740 });
  await signIn(page, 'mechanic');
  await page.goto('/stores');
  const more = page.getByText(/^A note on /).first();
  const number = ((await more.textContent()) ?? '').replace('A note on ', '');
  await more.click();
  const words = 'Supersedes the short one: wants the longer safety wire hole facing aft.';
  await page.getByLabel('What to know of this part').first().fill(words);
  await page.getByRole('button', { name: 'Keep the note' }).first().click();
  const note = page.getByRole('listitem').filter({ hasText: words });
  await expect(note).toContainText('Ruan Teasel');
  await axeFree(page);
  await page.reload();
  await expect(note).toBeVisible();
  expect(number).not.toBe('');
  await note.getByRole('button', { name: /^No longer true/ }).click();
  await expect(note).toHaveCount(0);
});
