import { expect, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

test('The front desk takes a deposit, finds it on the payer’s account, and pays a part of it back', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/desk');
  const orders = page.getByRole('table', { name: 'Orders' });
  await orders
    .getByRole('link', { name: /QQ-156/ })
    .last()
    .click();
  await expect(page.getByRole('heading', { level: 1, name: /^Order \d+$/ })).toBeVisible();
  await page.getByRole('button', { name: 'Take a deposit' }).click();
  const form = page.getByRole('form', { name: 'Take a deposit' });
  await form.getByLabel('Amount').fill('1,250.00');
  await form.getByLabel('By which way').fill('card');
  await axeFree(page);
  await form.getByRole('button', { name: 'Take it' }).click();
  const deposits = page.getByRole('region', { name: 'Deposits' });
  await expect(deposits.getByRole('link', { name: /^Receipt \d+/ })).toBeVisible();
  await expect(deposits.getByText('1,250.00').first()).toBeVisible();
  const receipt = await page.request.get(
    (await deposits.getByRole('link', { name: /^Receipt/ }).getAttribute('href')) ?? '',
  );
  expect((await receipt.body()).subarray(0, 5).toString()).toBe('%PDF-');

  await deposits.getByRole('button', { name: /^Pay back/ }).click();
  const back = page.getByRole('form', { name: /^Pay back/ });
  await back.getByLabel('Amount').fill('9,999');
  await back.getByRole('button', { name: 'Pay it back' }).click();
  await expect(page.getByText(/at most what is left, 1,250.00/)).toBeVisible();
  await back.getByLabel('Amount').fill('250');
  await back.getByRole('button', { name: 'Pay it back' }).click();
  await expect(deposits.getByText('paid back')).toBeVisible();
  await axeFree(page);

  await page.goto('/books');
  const owed = page.getByRole('table', { name: /^Owed, by days past/ });
  const row = owed.getByRole('row').filter({ hasText: 'deposits held 1,000.00' });
  for (const width of [360, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    await axeFree(page);
    if (process.env.FAIRLEAD_SHOTS)
      await page.screenshot({
        path: `${process.env.FAIRLEAD_SHOTS}/books-${width}.png`,
        fullPage: true,
      });
  }
  const bookkeeper = page.getByRole('region', { name: 'For the bookkeeper' });
  for (const [name, begins] of [
    ['Workbook, XLSX', 'PK'],
    ['Payments, CSV', 'on,kind,document,payer'],
  ] as const) {
    const href = await bookkeeper.getByRole('link', { name }).getAttribute('href');
    const file = await page.request.get(href ?? '');
    expect((await file.body()).toString('latin1').startsWith(begins), name).toBe(true);
  }
  await row.first().getByRole('link').click();
  const entries = page.getByRole('table', { name: /^What moved the account/ });
  await expect(entries.getByText(/^Deposit, receipt/)).toBeVisible();
  await expect(entries.getByText(/^Paid back of the deposit/)).toBeVisible();
  const pdf = await page.request.get(
    (await page.getByRole('link', { name: 'PDF, A4' }).getAttribute('href')) ?? '',
  );
  expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-');
  for (const width of [360, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    await axeFree(page);
    if (process.env.FAIRLEAD_SHOTS)
      await page.screenshot({
        path: `${process.env.FAIRLEAD_SHOTS}/account-${width}.png`,
        fullPage: true,
      });
  }
});
