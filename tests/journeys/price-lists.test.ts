import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/** How the shop prices: its manager's lists, a part with its core, shop supplies by rule, and a payer who is not taxed. */
test.describe.configure({ mode: 'serial' });

let manager: Page;
let desk: Page;
test.beforeAll(async ({ browser }) => {
  const viewport = { width: 1440, height: 900 };
  manager = await (await browser.newContext({ viewport })).newPage();
  desk = await (await browser.newContext({ viewport })).newPage();
});
test.afterAll(async () => {
  await manager.context().close();
  await desk.context().close();
});

/** Axe and a picture at both widths. */
async function looked(page: Page, name: string): Promise<void> {
  for (const [width, height] of [
    [360, 780],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    await axeFree(page);
    const path = test.info().outputPath(`${name}-${width}.png`);
    await page.screenshot({ path, fullPage: true });
  }
}

// The smallest PDF that names its version and its end (ISO 32000-1, 7.5.2 and 7.5.5).
const paper = {
  name: 'certificate-12-B.pdf',
  mimeType: 'application/pdf',
  buffer: Buffer.from('%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n'),
};
const day = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

test('The manager names a kind of work, marks costs up by bands and caps supplies, from a day on', async () => {
  await signIn(manager, 'manager');
  await manager.goto('/shop');
  const part = manager.getByRole('region', { name: /What parts and supplies sell for/ });
  const naming = part.getByRole('form', { name: 'Name a kind of work' });
  await naming.getByLabel('Another kind of work').fill('general');
  await naming.getByRole('button', { name: 'Name it' }).click();
  await expect(naming).toContainText('the name of the rate for all work without a kind');
  await naming.getByLabel('Another kind of work').fill('Avionics');
  await naming.getByRole('button', { name: 'Name it' }).click();
  await expect(part.getByText(/Avionics, 0 tasks: no rate of its own yet/)).toBeVisible();
  const task = part.getByLabel('Which task');
  await task.selectOption({ index: 1 });
  await part.getByLabel(/Is of which kind/).selectOption({ label: 'Avionics' });
  await expect(part.getByText(/Avionics, 1 task:/)).toBeVisible();
  await part.getByLabel(/Is of which kind/).selectOption({ index: 0 });
  await expect(part.getByText(/Avionics, 0 tasks:/)).toBeVisible();

  const bands = part.getByRole('form', { name: 'New mark-up bands' });
  await bands.getByLabel(/A band a line/).fill('10 50');
  await bands.getByRole('button', { name: 'Add it' }).click();
  await expect(bands).toContainText('The lowest band begins at a cost of 10');
  await bands.getByLabel(/A band a line/).fill('0 60\n10 50 %');
  await bands.getByRole('button', { name: 'Add it' }).click();
  await expect(part.getByRole('table', { name: /Mark-up on what a part cost/ })).toContainText(
    /counts today, by Bastian Ormeley/,
  );
  const supplies = part.getByRole('form', { name: 'New rule for shop supplies' });
  await supplies.getByLabel('Of the likely labour').fill('5');
  await supplies.getByLabel('At most').fill('60.00');
  await supplies.getByRole('button', { name: 'Add it' }).click();
  await expect(part.getByRole('table', { name: 'Shop supplies' })).toContainText('60.00');
  await looked(manager, 'lists');
});

test('The front desk quotes a part with its core below it, and supplies by the rule of the day', async () => {
  await signIn(desk, 'front desk');
  await desk.goto('/desk/quotes/new');
  await desk.getByRole('combobox', { name: 'Aircraft' }).fill('170');
  await desk.getByRole('combobox', { name: 'Aircraft' }).press('Enter');
  await desk.getByRole('radio', { name: /No package/ }).check();
  for (const [what, typed] of [
    ['Add a task', 'fuel pump'],
    ['Add a part', 'WT-7314'],
  ] as const) {
    const field = desk.getByRole('combobox', { name: what });
    await field.fill(typed);
    const options = desk.getByRole('listbox').getByRole('option');
    const other = options.filter({ hasNotText: new RegExp(typed, 'i') });
    await options
      .filter({ hasText: new RegExp(typed, 'i') })
      .first()
      .waitFor();
    // Everything else has left the list: what Enter takes is what was typed.
    await expect(other).toHaveCount(0);
    await field.press('Enter');
    await expect(field).toHaveValue('');
  }
  await desk.getByText('Add a charge: outside work').click();
  const charge = desk.getByRole('form', { name: 'Add a charge' });
  await charge.getByLabel('What is charged').selectOption('supplies');
  await expect(charge.getByLabel('How it is priced')).toHaveValue('rule');
  await charge.getByRole('button', { name: 'Add it' }).click();
  await expect(desk.getByRole('list', { name: 'Added to the quote' })).toContainText(
    'by the shop’s rule',
  );
  const row = (name: RegExp) =>
    desk.getByRole('table', { name: /What is offered/ }).getByRole('row', { name });
  await expect(row(/Core of .*: charged until the old one comes back/)).toContainText('250.00');
  await desk.keyboard.press('Control+Enter');
  await expect(desk.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(row(/Core of/)).toContainText('not billed when the old one comes back first');
  await expect(row(/Shop supplies/)).toContainText(/5 % of the likely labour, at most 60\.00 USD/);
  await expect(row(/Replace engine-driven fuel/)).toContainText('At the general rate');
  await looked(desk, 'quote');
});

test('An exemption is kept with its reason and its paper, frees parts of tax, and is ended', async () => {
  const quote = desk.url();
  await desk.goto('/books');
  await desk
    .getByRole('link', { name: /^Invoice \d+/ })
    .first()
    .click();
  await desk.locator('a[href^="/books/accounts/"]').click();
  await desk.getByText('Add an exemption, with its paper').click();
  const form = desk.getByRole('form', { name: 'Add an exemption' });
  await form.getByLabel('From').fill(day(-1));
  await form.getByLabel('Until').fill(day(30));
  const keep = form.getByRole('button', { name: 'Keep the exemption' });
  await keep.click();
  await expect(form.getByRole('alert')).toContainText('Needed is its paper');
  await form.getByLabel(/The paper/).setInputFiles(paper);
  await keep.click();
  await expect(form.getByRole('alert')).toContainText('reason has 0 characters');
  await form.getByLabel('Reason').fill('Public authority, certificate 12-B');
  await keep.click();
  const kept = desk.getByRole('table', { name: 'Exemptions from tax' });
  await expect(kept).toContainText('Public authority, certificate 12-B. Counts today');
  await looked(desk, 'account');
  await kept.getByRole('button', { name: /^End the exemption/ }).click();
  await kept.getByLabel('Why it does not hold any more').fill('Only tried out');
  await kept.getByRole('button', { name: 'End it today' }).click();
  await expect(kept).toContainText('Ended: Only tried out.');
  await desk.goto(quote);
});
