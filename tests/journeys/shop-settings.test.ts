import { expect, type Page, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** The manager's sheet of the shop. Everything is added by this journey's own names, and put back where others read it. */
test.describe.configure({ timeout: 240_000 });

async function toTheShop(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'The shop', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'The shop' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Revisions' })).toBeVisible();
}

async function fits(page: Page, name: string): Promise<void> {
  for (const [width, colorScheme] of [
    [1440, 'light'],
    [360, 'dark'],
  ] as const) {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 860 });
    const beyond = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');
    expect(beyond, `${name} at ${width} px, pixels beyond the side`).toBeLessThanOrEqual(0);
    await axeFree(page);
  }
  await page.setViewportSize({ width: 1440, height: 860 });
}

test('The manager invites somebody, who chooses a password, works, and is out at once when they leave', async ({
  page,
  browser,
}) => {
  await signIn(page, 'manager');
  await toTheShop(page);
  await fits(page, 'the shop');
  await page.getByRole('button', { name: 'Add somebody' }).click();
  const form = page.getByRole('form', { name: 'Add somebody' });
  await form.getByLabel('Full name').fill('Wenna Pascoe-Underhill');
  await form.getByLabel('Initials', { exact: true }).fill('HL');
  await form.getByLabel('E-mail address').fill('wenna@ebbsay.example');
  await form.getByRole('button', { name: 'Add them' }).click();
  await expect(form.getByText(/initials HL are Hesper Lyle/).first()).toBeVisible();
  await form.getByLabel('Initials', { exact: true }).fill('WP');
  await page.keyboard.press('Enter');
  const invitation = page.getByRole('region', { name: 'Invitation of Wenna Pascoe-Underhill' });
  const link = await invitation.getByLabel('Link').inputValue();
  expect(link).toMatch(/\/invited#[\w-]{32}$/);
  await axeFree(page);
  await invitation.getByRole('button', { name: 'I have given it' }).click();
  await expect(page.getByText(/invited as wenna@ebbsay\.example/)).toBeVisible();

  const theirs = await browser.newContext();
  const newcomer = await theirs.newPage();
  await newcomer.goto(link);
  await expect(newcomer.getByText(/Ebbsay Rotor & Wing invites you/)).toBeVisible();
  await axeFree(newcomer);
  await newcomer.getByLabel('Password', { exact: true }).fill('wet rope, dry hands');
  await newcomer.getByLabel('The same again').fill('wet rope, dry hands');
  await newcomer.getByRole('button', { name: 'Make my account' }).click();
  await newcomer.waitForURL(/\/sign-in/);
  await newcomer.getByLabel(/e-?mail/i).fill('wenna@ebbsay.example');
  await newcomer.getByLabel(/pass/i).fill('wet rope, dry hands');
  await newcomer.keyboard.press('Enter');
  await newcomer.waitForURL(/\/bench/);
  await expect(newcomer.getByRole('link', { name: 'The shop', exact: true })).toHaveCount(0);

  await page.reload();
  await page.getByRole('button', { name: 'Change Wenna Pascoe-Underhill' }).click();
  await page.getByRole('button', { name: 'Wenna Pascoe-Underhill leaves the shop' }).click();
  await expect(
    page.getByText(/At once Wenna Pascoe-Underhill is signed out everywhere/),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Yes, Wenna Pascoe-Underhill leaves' }).click();
  await expect(page.getByText(/^Left the shop: 1$/)).toBeVisible();
  await expect(page.getByRole('table', { name: 'The latest changes of this sheet' })).toContainText(
    'left the shop',
  );
  await newcomer.goto('/bench');
  await newcomer.waitForURL(/\/sign-in/);
  await theirs.close();
});

test('The clearance is drawn as it is typed, a week is written as one says it, and what came first is not lost', async ({
  page,
  context,
}) => {
  // This page does not follow the shop: it learns what came first when it saves. The other one does.
  await page.route('**/graphql/stream*', (route) => route.abort());
  await signIn(page, 'manager');
  await toTheShop(page);
  const clearance = page.getByLabel('Clearance around a parked aircraft');
  const before = await clearance.inputValue();
  const place = await page.getByLabel('Place').inputValue();
  await clearance.fill('1.7');
  await expect(page.getByRole('img', { name: /with 1\.7 m kept free/ })).toBeVisible();
  await expect(page.getByLabel('Currency')).toBeDisabled();
  await expect(page.getByText(/It stays USD: amounts were quoted in it/)).toBeVisible();

  const second = await context.newPage();
  await second.goto('/shop');
  await second.getByLabel('Place').fill('Hangar 2, moved a little');
  await second.getByRole('button', { name: 'Save the shop' }).click();
  await expect(second.getByText('place:').first()).toBeVisible();
  await page.getByLabel('Place').fill('Hangar 2, beside the slip');
  await page.getByRole('button', { name: 'Save the shop' }).click();
  // Refused with who came first and when; what is typed stays, with what is there now beside it.
  await expect(page.getByText(/was changed by Bastian Ormeley on \d{4}-\d\d-\d\d/)).toBeVisible();
  await expect(page.getByLabel('Place')).toHaveValue('Hangar 2, beside the slip');
  await expect(page.getByText('There now: Hangar 2, moved a little.')).toBeVisible();
  await expect(clearance).toHaveValue('1.7');
  await page.getByRole('button', { name: 'Save the shop' }).click();
  await expect(page.getByText(/There now:/)).toHaveCount(0);
  await expect(page.getByText(/was changed by Bastian Ormeley/)).toHaveCount(0);
  await expect(second.getByLabel('Place')).toHaveValue('Hangar 2, beside the slip');
  await expect(second.getByLabel('Clearance around a parked aircraft')).toHaveValue('1.7');
  await second.close();
  await page.getByLabel('Place').fill(place);
  await clearance.fill(before);
  await page.getByRole('button', { name: 'Save the shop' }).click();
  await expect(page.getByText('Hangar 2, beside the slip, now').first()).toBeVisible();

  await page.getByRole('button', { name: 'Set the week: Marta Quillby' }).click();
  const week = page.getByRole('form', { name: 'Set the week: Marta Quillby' });
  await week.getByLabel('Monday').fill('7:30-12, 13-');
  await expect(week.getByText('Needed are hours such as')).toBeVisible();
  await week.getByLabel('Monday').fill('7:30-12, 13-17');
  await week.getByRole('button', { name: 'Monday’s hours until Friday' }).click();
  await week.getByRole('button', { name: 'Set this week' }).click();
  await expect(page.getByRole('row', { name: /^Marta Quillby/ })).toContainText('7:30–12, 13–17');

  await page.getByRole('button', { name: 'Change Hesper Lyle' }).click();
  await page.getByRole('button', { name: 'End Inspection authorization of Hesper Lyle' }).click();
  await expect(
    page.getByText(/Hesper Lyle can no longer sign for: annual inspection\./),
  ).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByText(/can no longer sign for/)).toHaveCount(0);
  await axeFree(page);
});

test('The keys of a sheet open under "?" and the word Keys, never while somebody writes, and can be turned off', async ({
  page,
}) => {
  await signIn(page, 'manager');
  await toTheShop(page);
  const dialog = page.getByRole('dialog', { name: 'Keys of this sheet' });
  await page.getByLabel('Name', { exact: true }).press('?');
  await expect(dialog).toBeHidden();
  await page.locator('h1').click();
  await page.keyboard.press('?');
  await expect(dialog).toBeVisible();
  await axeFree(page);
  await page.keyboard.press('Escape');
  await expect(dialog).toBeHidden();
  await page.getByRole('button', { name: 'Keys', exact: true }).click();
  await expect(dialog).toContainText('Esc');
  await dialog.getByLabel(/Keys pressed alone work/).uncheck();
  await dialog.getByRole('button', { name: 'Close' }).click();
  await page.keyboard.press('?');
  await expect(dialog).toBeHidden();
  await page.goto('/desk/quotes/new');
  await page.getByRole('button', { name: 'Keys', exact: true }).click();
  await expect(dialog).toContainText('Ctrl + Enter');
});
