import { expect, type Page, test } from '@playwright/test';
import { seenTwice, signIn } from './people.ts';

/** The manager takes an inspection over from the rule, makes it the shop’s own, and the desk quotes it. */
test.describe.configure({ mode: 'serial' });

let page: Page;
test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
});
test.afterAll(async () => {
  await page.context().close();
});

test('The manager copies an annual inspection for twins, with every line of the rule', async () => {
  await signIn(page, 'manager');
  await page.getByRole('link', { name: 'The shop' }).click();
  await page.getByRole('link', { name: /^Packages/ }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Packages' })).toBeVisible();
  const starter = page.getByRole('article', { name: 'Annual inspection, light airplane' });
  await starter.getByText('What is in it, and what is left out').click();
  await expect(starter.getByText('appendix D(h)(4)')).toBeVisible();
  await seenTwice(page, 'packages');
  await starter.getByLabel('For').selectOption('all twin-engine airplanes');
  await starter.getByRole('button', { name: /^Take it over/ }).click();
  await expect(
    page.getByRole('heading', { level: 1, name: 'Annual inspection, light airplane' }),
  ).toBeVisible();
  await expect(page.getByRole('listitem').filter({ hasText: 'appendix D(a)' })).toBeVisible();
  await expect(page.getByRole('heading', { name: /of the rule that no task/ })).toHaveCount(0);
});

test('They take a line off, are told that the rule asks for it, and put it back', async () => {
  await page.getByRole('button', { name: 'take off Inspect the cowling' }).click();
  await expect(page.getByRole('button', { name: 'take off Inspect the cowling' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Keep as revision 2' }).click();
  const missing = page.getByRole('region', { name: /1 line of the rule/ });
  await expect(missing).toContainText('appendix D(d)(11)');
  const revisions = page.getByRole('table', { name: 'Revisions' });
  await expect(
    revisions.getByRole('row', { name: /taken out: Inspect the cowling/ }),
  ).toBeVisible();
  await seenTwice(page, 'package');
  await page.getByRole('combobox', { name: 'Add a task' }).fill('Inspect the cowling');
  await page.getByRole('combobox', { name: 'Add a task' }).press('Enter');
  await expect(missing).toHaveCount(0);
  await page.getByRole('button', { name: 'up Inspect the cowling' }).press('Enter');
  const tasks = page.getByRole('list').filter({ has: page.getByRole('button', { name: /^up / }) });
  await expect(tasks.getByRole('listitem').last()).toContainText('Run up');
});

test('They say how long a line takes and what the package costs, in words that are refused where they are none', async () => {
  await page.getByRole('button', { name: 'describe Inspect the cowling' }).click();
  const form = page.getByRole('form', { name: 'Inspect the cowling' });
  await form.getByLabel('JASC code').fill('71');
  await form.getByLabel('Standard time').fill('0.4');
  await form.getByRole('button', { name: 'Keep the task' }).click();
  await expect(form.getByText(/needed are the four digits/)).toBeVisible();
  await seenTwice(page, 'task');
  await form.getByLabel('JASC code').fill('7110');
  await form.getByRole('button', { name: 'Keep the task' }).click();
  await expect(form).toHaveCount(0);
  await expect(page.getByRole('listitem').filter({ hasText: 'Inspect the cowling' })).toContainText(
    '0.4 h',
  );
  await page.getByLabel('Title').fill('Annual inspection of twins');
  await page.getByLabel('Offered').uncheck();
  await page.getByRole('button', { name: 'Keep as revision 3' }).click();
  await expect(
    page.getByRole('heading', { level: 1, name: 'Annual inspection of twins' }),
  ).toBeVisible();
  await page.getByRole('link', { name: 'All packages' }).click();
  await expect(page.getByRole('row', { name: /Annual inspection of twins/ })).toContainText(
    'No longer offered.',
  );
});

test('They say how long all of it takes on one sheet, down the list by keyboard, and it is kept at once', async () => {
  await page.getByRole('link', { name: 'Annual inspection of twins' }).click();
  await page.getByRole('button', { name: 'Hours of all tasks' }).press('Enter');
  const form = page.getByRole('form', { name: 'Hours of all tasks' });
  await expect(form.getByRole('button', { name: 'Keep 0 changed times' })).toBeDisabled();
  const fields = form.getByRole('textbox');
  const many = await fields.count();
  expect(many).toBeGreaterThan(30);
  await fields.first().focus();
  for (let each = 0; each < many; each += 1) {
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type(each === 1 ? 'long' : '0,5');
    await page.keyboard.press('Tab');
  }
  await form.getByRole('button', { name: `Keep ${many} changed times` }).click();
  await expect(form.getByText('needed: hours above 0, such as 1.2')).toHaveCount(1);
  await seenTwice(page, 'hours-of-tasks');
  await fields.nth(1).fill('0.5');
  await form.getByRole('button', { name: `Keep ${many} changed times` }).click();
  await expect(form).toHaveCount(0);
  await expect(
    page.getByText(`${many} tasks, ${(many / 2).toFixed(1)} standard hours.`),
  ).toBeVisible();
  await page.reload();
  await expect(
    page.getByText(`${many} tasks, ${(many / 2).toFixed(1)} standard hours.`),
  ).toBeVisible();
  await page.getByRole('link', { name: 'All packages' }).click();
});

test('A package of their own begins empty and says what it needs', async () => {
  await page.getByRole('link', { name: 'Put a package together' }).click();
  await expect(page.getByRole('button', { name: 'Keep as revision 1' })).toBeDisabled();
  await page.getByRole('combobox', { name: 'Add a task' }).fill('magneto');
  await page.getByRole('combobox', { name: 'Add a task' }).press('Enter');
  await expect(page.getByRole('button', { name: /^take off/ })).toHaveCount(1);
  await page.getByRole('button', { name: 'Keep as revision 1' }).click();
  await expect(page.getByText(/title has 0 characters/)).toBeVisible();
  await seenTwice(page, 'new-package');
});
