import { expect, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/** What the stores refuse, order and note: each by itself, in any order. */

test('Without a certificate a part goes only for a reason, which stands at the work', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await signIn(page, 'inspector');
  await page.goto('/stores');
  const list = (name: string) => page.getByRole('table', { name });
  await page.getByRole('button', { name: 'Receive a delivery' }).click();
  const form = page.getByRole('form', { name: 'Receive a delivery' });
  await form.getByRole('combobox', { name: 'Part' }).fill('hose, 300');
  await expect(form.getByRole('option')).toHaveCount(1);
  await form.getByRole('option').click();
  for (const [label, text] of [
    ['Supplier', 'Kelpline Hose Works'],
    ['Batch or serial', 'ZZ-7002'],
    ['How many', '1'],
    ['What one cost the shop', '41.5'],
  ] as const)
    await form.getByLabel(label).fill(text);
  await form.getByRole('button', { name: 'Take it in' }).click();
  const row = list('On the shelves').getByRole('row').filter({ hasText: 'ZZ-7002' });
  await expect(row).toContainText('without a certificate');
  await row.getByRole('button', { name: /^Issue / }).click();
  const issue = page.getByRole('form', { name: /^Issue / });
  const work = issue.getByLabel('For which work');
  const option = await work.locator('option', { hasText: 'QQ-117, 33' }).getAttribute('value');
  await work.selectOption(option);
  const yes = issue.getByRole('button', { name: 'Issue it' });
  await expect(yes).toBeDisabled();
  await issue.getByLabel('I know that it goes without a release certificate').check();
  await expect(yes).toBeDisabled();
  await issue.getByLabel('Why it is issued all the same').fill('Certificate promised by post');
  await axeFree(page);
  await yes.click();
  await expect(
    page.getByRole('status').filter({ hasText: 'without a release certificate' }),
  ).toBeVisible();
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  await expect(page.getByText('Certificate promised by post')).toBeAttached();
  // What this journey took stays out of the others' figures.
  await page.goto('/stores');
  const out = list('Out on the work').getByRole('row').filter({ hasText: 'ZZ-7002' });
  await out.getByRole('button', { name: /^Return / }).click();
  await page.getByRole('button', { name: 'Return it' }).click();
  await expect(out).toHaveCount(0);
});

test('What runs low is ordered, printed, sent and received; an old number says what supersedes it', async ({
  page,
}) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await signIn(page, 'inspector');
  await page.goto('/stores');
  const list = (name: string) => page.getByRole('table', { name });
  await page
    .getByRole('navigation', { name: 'Sheets of the stores' })
    .getByText('What to order')
    .click();
  const low = list('Below the reorder point');
  await low.getByRole('button', { name: /^Order Fuel hose/ }).click();
  const draft = page.getByRole('form', { name: 'Draft a purchase order' });
  await expect(draft.getByLabel('Supplier')).toHaveValue('Kelpline Hose Works');
  await draft.getByLabel('Their e-mail').fill('orders@kelpline.example');
  await axeFree(page);
  await draft.getByRole('button', { name: 'Keep the draft' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Purchase order \d+$/ })).toBeVisible();
  const paper = await page.getByRole('link', { name: 'Print it' }).getAttribute('href');
  expect((await page.request.get(paper ?? '')).headers()['content-type']).toBe('application/pdf');
  await page.getByRole('button', { name: 'Send it' }).click();
  await page
    .getByRole('form', { name: /^Send order / })
    .getByLabel('How it goes')
    .selectOption('telephone');
  await page.getByRole('button', { name: 'It is sent' }).click();
  await expect(page.getByText(/^Sent by telephone by Hesper Lyle/)).toBeVisible();
  await page.getByRole('button', { name: /^Receive Fuel hose/ }).click();
  const receive = page.getByRole('form', { name: /^Receive Fuel hose/ });
  await receive.getByLabel('Batch or serial').fill('ZZ-7003');
  await receive.getByLabel('Release certificate').fill('EB-9902');
  await receive.getByRole('button', { name: 'Take it in' }).click();
  await expect(
    page
      .getByRole('main')
      .getByRole('definition')
      .filter({ hasText: /^received$/ }),
  ).toBeVisible();
  await axeFree(page);
  await page.goto('/stores');
  await page.getByLabel('Find').fill('bl 30');
  await page.keyboard.press('Enter');
  await expect(
    page.getByText(/None on the shelf; superseded by BL-31, of which \d+ lie in bin C2\./),
  ).toBeVisible();
  await axeFree(page);
  await page
    .getByRole('navigation', { name: 'Sheets of the stores' })
    .getByText('Cores owed')
    .click();
  await expect(page.getByText('No core is owed')).toBeVisible();
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

test('A code is read by the camera where the browser offers it, and opens its lot', async ({
  page,
}) => {
  // No camera in the browser of the tests: a drawn picture stands for it, and a reader that finds the code in it.
  await page.addInitScript(`
    globalThis.BarcodeDetector = class {
      static async getSupportedFormats() { return ['qr_code', 'code_128', 'unknown']; }
      constructor({ formats }) { globalThis.askedFor = formats; }
      async detect() { return [{ rawValue: 'cl 1077' }]; }
    };
    navigator.mediaDevices.getUserMedia = async () => {
      const canvas = document.createElement('canvas');
      canvas.getContext('2d').fillRect(0, 0, 10, 10);
      return canvas.captureStream(5);
    };
  `);
  await page.setViewportSize({ width: 360, height: 740 });
  await signIn(page, 'mechanic');
  await page.goto('/stores');
  await page.getByRole('button', { name: 'Read a code by camera' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/, CL-1077$/);
  expect(await page.evaluate<string[]>('globalThis.askedFor')).toEqual(['qr_code', 'code_128']);
  await page.goto('/stores');
  await page.getByLabel('Find').fill('no such number');
  await page.keyboard.press('Enter');
  await expect(
    page.getByText(
      'No part, batch, serial number or certificate of this shop is “no such number”.',
    ),
  ).toBeVisible();
});
