import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/** A quote in which each thing is sold in its own way, as the desk makes it and its owner reads it. */
test.describe.configure({ mode: 'serial' });

let desk: Page;
test.beforeAll(async ({ browser }) => {
  desk = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
});
test.afterAll(async () => {
  await desk.context().close();
});

const shot = (name: string) =>
  desk.screenshot({ path: test.info().outputPath(`${name}.png`), fullPage: true });

async function pick(what: string, typed: string): Promise<void> {
  const field = desk.getByRole('combobox', { name: what });
  await field.fill(typed);
  await desk.getByRole('listbox').getByRole('option').first().waitFor();
  await field.press('Enter');
  await expect(field).toHaveValue('');
}

test('The front desk sells one task at a fixed price, one not to exceed a limit, and charges for what another shop does', async () => {
  await signIn(desk, 'front desk');
  await desk.goto('/desk/quotes/new');
  await desk.getByRole('combobox', { name: 'Aircraft' }).fill('170');
  await desk.getByRole('combobox', { name: 'Aircraft' }).press('Enter');
  await desk.getByRole('radio', { name: /No package/ }).check();
  for (const typed of ['fuel pump', 'magneto']) await pick('Add a task', typed);
  const added = desk.getByRole('list', { name: 'Added to the quote' });
  await expect(added.getByRole('listitem')).toHaveCount(2);
  await added
    .getByRole('combobox', { name: /is sold/ })
    .first()
    .selectOption('fixed');
  await expect(added.getByText('needed: an amount above 0')).toBeVisible();
  await added.getByRole('textbox', { name: /^Price of/ }).fill('450');
  await added
    .getByRole('combobox', { name: /is sold/ })
    .last()
    .selectOption('not_to_exceed');
  await added.getByRole('textbox', { name: /^Limit of/ }).fill('120.00');
  await desk.getByText('Add a charge: outside work').click();
  const charge = desk.getByRole('form', { name: 'Add a charge' });
  await charge.getByRole('button', { name: 'Add it' }).click();
  await expect(charge.getByRole('alert')).toContainText('Say in words what it is.');
  await charge.getByLabel('In words').fill('Housing magnetic-particle inspected elsewhere');
  await charge.getByLabel('How it is priced').selectOption('derived');
  await charge.getByLabel('Its cost').fill('140');
  await charge.getByLabel('Mark-up').fill('15');
  await charge.getByRole('button', { name: 'Add it' }).click();
  await charge.getByLabel('What is charged').selectOption('supplies');
  await charge.getByLabel('Of the likely labour').fill('3');
  await charge.getByLabel('At most').fill('10');
  await charge.getByRole('button', { name: 'Add it' }).click();
  const offered = desk.getByRole('table', { name: /What is offered/ });
  const row = (name: RegExp) => offered.getByRole('row', { name });
  await expect(row(/at a fixed price/)).toContainText('450.00');
  await expect(row(/not to exceed 120\.00/)).toBeVisible();
  // 140.00 and 15 % of it.
  await expect(row(/Housing magnetic-particle/)).toContainText('161.00');
  await expect(row(/Shop supplies/)).toContainText('10.00');
  await supposes();
  await axeFree(desk);
  await shot('form');
  await desk.setViewportSize({ width: 360, height: 780 });
  await axeFree(desk);
  await shot('form-360');
  await desk.setViewportSize({ width: 1440, height: 900 });
  await desk.keyboard.press('Control+Enter');
  await expect(desk.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await expect(row(/Housing magnetic-particle/)).toContainText('161.00');
  await expect(desk.getByLabel('What was read out')).toHaveValue(
    /will not cost you more than 120\.00 USD before tax/,
  );
  await shot('sheet');
});

/** Without the work of the other shop the price falls by just what it was charged at; nothing of that is kept. */
async function supposes(): Promise<void> {
  await desk.getByText('What if: another mechanic, another day').click();
  const whatIf = desk.getByRole('region', { name: 'What if' });
  await whatIf.getByRole('checkbox', { name: /Housing magnetic-particle/ }).uncheck();
  const likely = whatIf.getByRole('row', { name: /^Likely/ });
  await expect(likely).toContainText('−161');
  await whatIf.getByLabel('Begun on').fill(inThreeWeeks());
  await expect(whatIf.getByRole('row', { name: /^Ready by/ })).toContainText('later');
  const hours = whatIf.getByRole('row', { name: /^Hours/ });
  await expect(hours).toContainText('+0.0');
  await whatIf.getByLabel('Done by').selectOption('Jory Sandwell');
  await expect(hours).not.toContainText('+0.0');
  await whatIf.getByRole('checkbox', { name: /Housing magnetic-particle/ }).check();
}

const inThreeWeeks = () => new Date(Date.now() + 21 * 86_400_000).toISOString().slice(0, 10);

test('The next revision starts from how each was sold', async () => {
  await desk.getByRole('link', { name: /next revision/i }).click();
  const added = desk.getByRole('list', { name: 'Added to the quote' });
  await expect(added.getByRole('textbox', { name: /^Price of/ })).toHaveValue('450.00');
  await expect(added.getByRole('textbox', { name: /^Limit of/ })).toHaveValue('120.00');
  await expect(added).toContainText('cost 140.00 USD, and 15 %');
  await desk.getByRole('button', { name: /take off Shop supplies/ }).click();
  await expect(added.getByRole('listitem')).toHaveCount(3);
  await desk.keyboard.press('Control+Enter');
  const changes = desk.getByRole('table', { name: 'What revision 2 changed of revision 1' });
  const gone = changes.getByRole('row', { name: /Shop supplies/ });
  await expect(gone).toContainText('taken off');
  await expect(gone).toContainText('−10');
  await axeFree(desk);
  await shot('revisions');
  await desk.setViewportSize({ width: 360, height: 780 });
  await axeFree(desk);
  await shot('revisions-360');
});
