import { expect, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

test('The front desk mails a quote, reads in the Post what would have gone, and its link is the owner’s page', async ({
  page,
  browser,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill('QQ-149');
  await page.getByRole('option', { name: /QQ-149/ }).click();
  await page.getByRole('combobox', { name: 'Add a task' }).fill('Inspect drive belts');
  await page.getByRole('option', { name: /^Inspect drive belts/ }).click();
  await page.getByRole('button', { name: 'Keep as a draft' }).click();
  const heading = page.getByRole('heading', { level: 1, name: /^Quote \d+$/ });
  await expect(heading).toBeVisible();
  const quote = await heading.innerText();
  await page.getByLabel('How it goes out').selectOption({ label: 'by e-mail' });

  // An address is kept before anything is sent to it; one that is none is refused beside it.
  const address = page.getByLabel(/^E-mail address of/);
  await address.fill('nobody@');
  await page.getByRole('button', { name: 'Save the address' }).click();
  await expect(page.getByText(/needed is one e-mail address/)).toBeVisible();
  await address.fill('owner.of.149@strand.example');
  await page.getByRole('button', { name: 'Save the address' }).click();
  await expect(page.getByRole('button', { name: 'Save the address' })).toHaveCount(0);
  await axeFree(page);
  await page.getByRole('button', { name: 'Send', exact: true }).click();
  await expect(page.getByText('sent, waits')).toBeVisible();

  await page.goto('/desk');
  await page.getByRole('link', { name: 'Post', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Post' })).toBeVisible();
  const mail = page
    .getByRole('listitem')
    .filter({ hasText: `${quote}, revision 1` })
    .first();
  // The worker keeps it within moments, and the page follows by itself.
  await expect(mail.getByText('kept here', { exact: true })).toBeVisible();
  const summary = mail.locator('summary');
  if (!(await mail.locator('details').evaluate((all) => (all as HTMLDetailsElement).open)))
    await summary.press('Enter');
  await expect(mail.getByText(`${quote}, revision 1: QQ-149`)).toBeVisible();
  const pdf = await page.request.get(
    (await mail.getByRole('link', { name: /\.pdf$/ }).getAttribute('href')) ?? '',
  );
  expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-');
  const words = await mail.innerText();
  const link = /https?:\/\/\S+\/owner\/\S+/.exec(words)?.[0] ?? '';
  const owner = await browser.newContext();
  const theirs = await owner.newPage();
  await theirs.goto(new URL(link).pathname);
  await expect(theirs.getByText('QQ-149').first()).toBeVisible();
  await owner.close();
  for (const width of [360, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    await axeFree(page);
    if (process.env.FAIRLEAD_SHOTS)
      await page.screenshot({
        path: `${process.env.FAIRLEAD_SHOTS}/post-${width}.png`,
        fullPage: true,
      });
  }

  // Nothing sends here, so there is nothing to try again. Put away, it rests.
  await expect(mail.getByRole('button', { name: /^Try again/ })).toHaveCount(0);
  await mail.getByRole('button', { name: /^Put away/ }).click();
  await expect(mail.getByText('put away', { exact: true })).toBeVisible();
  await expect(mail.getByRole('button', { name: /^Put away/ })).toHaveCount(0);
  // The same once more, to another address, is a mail of its own.
  if (!(await mail.locator('details').evaluate((all) => (all as HTMLDetailsElement).open)))
    await summary.press('Enter');
  await mail.getByLabel('Send it anew to').fill('other@strand.example');
  await mail.getByRole('button', { name: /^Send anew/ }).click();
  await expect(page.getByText('other@strand.example')).toBeVisible();
});

test('The front desk mails an issued invoice from its sheet', async ({ page }) => {
  await signIn(page, 'front desk');
  await page.goto('/books');
  await page.getByRole('link', { name: /^Invoice 411/ }).click();
  await page.getByRole('button', { name: 'Send by e-mail' }).click();
  await axeFree(page);
  await page.getByRole('button', { name: 'Send it' }).click();
  await expect(page.getByRole('status')).toContainText('is on its way to');
  await page.getByRole('link', { name: 'Post', exact: true }).click();
  const mail = page.getByRole('listitem').filter({ hasText: 'Invoice 411' }).first();
  await expect(mail.getByText('kept here', { exact: true })).toBeVisible();
});
