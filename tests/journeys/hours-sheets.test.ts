import { expect, type Page, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** The sheets behind the hours: what places cost, whether estimates are honest, and times that look odd. */
test.describe.configure({ timeout: 240_000 });

async function toHours(page: Page, word: string): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Sheets' })
    .getByRole('link', { name: 'Hours' })
    .click();
  const sheets = page.getByRole('navigation', { name: 'Sheets of the hours' });
  await sheets.getByRole('link', { name: word }).click();
  await expect(page.getByRole('heading', { level: 1, name: word })).toBeVisible();
}

test('Two managers change what is believed of places: the second keeps what they typed, and the factors follow', async ({
  page,
  context,
}) => {
  await signIn(page, 'manager');
  await toHours(page, 'What the place costs');
  const open = async (on: Page) => {
    const fold = on.getByText('Change what is believed');
    await fold.focus();
    await on.keyboard.press('Enter');
    return on.getByRole('form', { name: 'What is believed of places' });
  };
  const form = await open(page);
  const second = await context.newPage();
  await second.goto('/hours/places');
  const theirs = await open(second);

  const step = (of: typeof form, name: string) => of.getByRole('group', { name });
  const posture = step(form, 'bent or kneeling');
  await posture.getByLabel('Factor, ×').fill('lots');
  await expect(
    posture.getByText('"lots" is no factor: write a number such as 1.26.'),
  ).toBeVisible();
  await posture.getByLabel('Factor, ×').fill('0,5');
  await form.getByLabel('Why').fill('Measured on three jobs in May');
  await form.getByRole('button', { name: /^Save as revision/ }).press('Enter');
  await expect(
    form.getByText(/needed is ×1 to ×10, since a worse place never saves time/),
  ).toBeVisible();
  await posture.getByLabel('Factor, ×').fill('1.26');
  await expect(posture.getByText(/^Nine in ten between ×1\.1\d and ×1\.4\d$/)).toBeVisible();
  await form.getByRole('button', { name: /^Save as revision/ }).press('Enter');
  await expect(
    page.getByText(/^Revision \d+, Bastian Ormeley, .*: Measured on three jobs in May$/),
  ).toBeVisible();
  await expect(
    page.getByText(/Posture, bent or kneeling: ×1\.05 .* now ×1\.26/).first(),
  ).toBeVisible();

  await step(theirs, 'bent or kneeling').getByLabel('Factor, ×').fill('1.4');
  await theirs.getByLabel('Why').fill('By the other manager');
  await theirs.getByRole('button', { name: /^Save as revision/ }).click();
  await expect(
    theirs.getByText(/was saved by Bastian Ormeley on .* Nothing of yours is saved/),
  ).toBeVisible();
  await expect(step(theirs, 'bent or kneeling').getByLabel('Factor, ×')).toHaveValue('1.4');
  await expect(theirs.getByText('There now: 1.26. Saving puts yours in its place.')).toBeVisible();
  await axeFree(second);
  await second.close();
  // The worker learns with it at once.
  await expect(page.getByText(/^From model \d+, fitted to/)).toBeVisible({ timeout: 60_000 });
});

test('The manager has the estimates looked back on, and sees mechanics, which the front desk does not', async ({
  page,
}) => {
  await signIn(page, 'manager');
  await toHours(page, 'Are our estimates honest?');
  const ask = page.getByRole('button', { name: /^Compute it/ });
  await expect(ask.or(page.getByText(/^Being computed/)).first()).toBeVisible();
  if (await ask.isVisible()) await ask.press('Enter');
  await expect(page.getByRole('heading', { name: 'By mechanic, for you alone' })).toBeVisible({
    timeout: 180_000,
  });
  await expect(page.getByText('What the quantiles cost, beside five plain rules')).toBeVisible();
  await expect(page.getByRole('table', { name: 'By task', exact: true })).toBeVisible();
  await axeFree(page);
  await page.getByRole('button', { name: /sign out/i }).click();
  await signIn(page, 'front desk');
  await toHours(page, 'Are our estimates honest?');
  await expect(page.getByText('What the quantiles cost, beside five plain rules')).toBeVisible();
  await expect(page.getByText(/By mechanic/)).toHaveCount(0);
  await expect(page.getByRole('button', { name: /^Compute it/ })).toHaveCount(0);
});

test('The front desk asks the model that made a quote the same again, and it gives the same hours', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill('117');
  await page.keyboard.press('Enter');
  await page.getByRole('radio', { name: /No package/ }).check();
  await page.getByRole('combobox', { name: 'Add a task' }).fill('exhaust collector');
  await expect(page.getByRole('listbox').getByRole('option')).toHaveCount(1);
  await page.keyboard.press('Enter');
  await expect(page.getByText('nine in ten should come out under')).toBeVisible();
  await page.getByRole('button', { name: 'Keep as a draft' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  const revisions = page.getByRole('table', { name: 'Revisions' });
  await expect(revisions).toContainText(/model \d+/);
  const asked = page.getByRole('region', { name: 'Asked again' });
  await asked.getByRole('button', { name: 'Ask the model again' }).press('Enter');
  await expect(asked).toContainText(
    /Revision 1, by the model of .*: Asked again, model \d+ gives the same hours for every line and for the whole\./,
  );
  await axeFree(page);
});

test('The inspector decides about a time that looks odd, by keyboard, and decides again', async ({
  page,
}) => {
  await signIn(page, 'inspector');
  await toHours(page, 'Times that look odd');
  const odd = page
    .getByRole('region', { name: 'To decide' })
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading') });
  await expect(odd.first()).toBeVisible();
  const count = await odd.count();
  const first = odd.first();
  const title = (await first.getByRole('heading').textContent()) ?? '';
  await first.locator('summary').focus();
  await page.keyboard.press('Enter');
  await first.getByRole('button', { name: 'Decide' }).press('Enter');
  await expect(first.getByText('Say why: it stays with the decision.')).toBeVisible();
  await expect(first.getByText('Choose what is right.')).toBeVisible();
  await first.getByRole('radio', { name: /^It stands/ }).focus();
  await page.keyboard.press('ArrowDown');
  await expect(first.getByRole('radio', { name: /^Learn from other hours/ })).toBeChecked();
  await first.getByLabel(/^Hands-on hours/).fill('-3');
  await first.getByLabel('Why').fill('The job card says so');
  await first.getByRole('button', { name: 'Decide' }).press('Enter');
  await expect(first.getByText(/hours are -3: needed are hands-on hours above 0/)).toBeVisible();
  await axeFree(page);
  await first.getByLabel(/^Hands-on hours/).fill('1,4');
  await first.getByRole('button', { name: 'Decide' }).press('Enter');
  const decided = page
    .getByRole('region', { name: 'Decided' })
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading', { name: title }) })
    .first();
  await expect(decided).toContainText('taken as 1.40 h');
  await expect(decided).toContainText(/Hesper Lyle, .*: The job card says so/);
  await expect(odd).toHaveCount(count - 1);
  await decided.getByText('Decide again').click();
  await decided.getByRole('radio', { name: /^Leave it out/ }).check();
  await decided.getByLabel('Why').fill('On second thoughts');
  await decided.getByRole('button', { name: 'Decide' }).click();
  await expect(decided).toContainText('left out of learning');
  await expect(decided).toContainText('Before: taken as 1.40 h.');
});
