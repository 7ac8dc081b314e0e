import { expect, type Page, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** The hangar's tablet: registered by the manager, and everybody changes on it with six digits or a badge. */
test.describe.configure({ mode: 'serial' });

const PIN = '814725';

let tablet: Page;

test.beforeAll(async ({ browser }) => {
  tablet = await (await browser.newContext({ viewport: { width: 820, height: 1180 } })).newPage();
});

async function signOut(page: Page, word: string): Promise<void> {
  await page.getByRole('button', { name: word }).click();
  await page.waitForURL(/\/sign-in/);
}

test('A mechanic chooses a PIN, and the manager registers the tablet', async ({ browser }) => {
  const phone = await (
    await browser.newContext({ viewport: { width: 360, height: 780 } })
  ).newPage();
  await signIn(phone, 'mechanic');
  await phone.getByRole('link', { name: /^Your PIN/ }).click();
  await phone.getByLabel('Six digits').fill('123456');
  await phone.getByRole('button', { name: 'Set it' }).click();
  await expect(phone.getByText(/what everybody tries first/)).toBeVisible();
  await phone.getByLabel('Six digits').fill(PIN);
  await phone.getByRole('button', { name: 'Set it' }).click();
  await expect(phone.getByText('Set. It counts from now on.')).toBeVisible();
  await axeFree(phone);
  await phone.context().close();

  await signIn(tablet, 'manager');
  await tablet.goto('/shop');
  await tablet.getByLabel('Name of the device you sit at').fill('Tablet by stand 2');
  await tablet.getByRole('button', { name: 'Register this device' }).click();
  await expect(tablet.getByRole('button', { name: 'End Tablet by stand 2' })).toBeVisible();
  await signOut(tablet, 'Sign out');
});

test('Somebody changes to themselves by PIN, wrong first, and is a mechanic there', async () => {
  await expect(
    tablet.getByRole('heading', { name: /Tablet by stand 2: who are you/ }),
  ).toBeVisible();
  await axeFree(tablet);
  await tablet.getByRole('button', { name: 'Ruan Teasel' }).click();
  await axeFree(tablet);
  for (const digit of '000001')
    await tablet.getByRole('button', { name: digit, exact: true }).click();
  await expect(tablet.getByRole('main').getByRole('alert')).toContainText(
    'This is not their PIN. 4 more tries.',
  );
  await tablet.keyboard.type(PIN);
  await tablet.waitForURL(/\/bench/);
  await expect(tablet.getByRole('region', { name: 'Your clock' })).toBeVisible();
  await expect(tablet.getByRole('navigation', { name: 'Sheets' })).not.toContainText('Records');
  await signOut(tablet, 'Change person');
  await expect(tablet.getByRole('heading', { name: /who are you/ })).toBeVisible();
});

test('A badge printed by the manager opens it too', async ({ browser }) => {
  const office = await (await browser.newContext()).newPage();
  await signIn(office, 'manager');
  await office.goto('/shop');
  await office.getByRole('button', { name: 'Change Marta Quillby' }).click();
  const answer = office.waitForResponse((response) => response.url().endsWith('/auth/badge'));
  await office.getByRole('button', { name: 'Make Marta Quillby a badge' }).click();
  const { badge } = (await (await answer).json()) as { badge: string };
  await expect(office.getByRole('img', { name: 'Code of Marta Quillby’s badge' })).toBeVisible();
  await axeFree(office);
  await office.emulateMedia({ media: 'print' });
  const box = await office.locator('[data-badge]').boundingBox();
  // ID-1 of ISO/IEC 7810, 85.6 × 54 mm, at 96 px an inch.
  expect(Math.round(box?.width ?? 0)).toBe(Math.round((85.6 / 25.4) * 96));
  await office.context().close();

  await tablet.getByLabel('Or the code of your badge').fill(badge);
  await tablet.keyboard.press('Enter');
  await tablet.waitForURL(/\/bench/);
  await expect(tablet.getByText('Marta Quillby').first()).toBeVisible();
  await tablet.context().close();
});
