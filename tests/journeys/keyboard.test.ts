import { expect, type Locator, type Page, test } from '@playwright/test';
import { press, tabTo } from './by-keyboard.ts';
import { axeFree, signInByForm } from './people.ts';

/** What each person does all day, without a pointing device: Tab, arrows, Enter and the space bar. */

/** What a bench keeps until it is sent has come to the shop. */
const sent = (page: Page, words: string) =>
  page.waitForResponse(
    (response) =>
      response.url().endsWith('/graphql') &&
      response.ok() &&
      (response.request().postData() ?? '').includes(words),
  );

test('The mechanic starts, switches and stops the clock by keyboard, cautions first', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 780 });
  await signInByForm(page, 'mechanic');
  const visit = page.locator('section', { has: page.getByRole('heading', { name: /QQ-117/ }) });
  const starts = visit.getByRole('button', { name: /^Start:/ });
  const clock = page.getByRole('region', { name: 'Your clock' });
  const cautions = page.getByRole('dialog');
  const titleOf = async (row: Locator) =>
    /^Start:\s*\d+(.+?)(open|in work|waiting|\d+:)/.exec((await row.textContent()) ?? '')?.[1] ??
    '?';

  const first = await titleOf(starts.first());
  await press(page, starts.first());
  await expect(cautions).toContainText('Before you start');
  await axeFree(page);
  await page.keyboard.press('Escape');
  await expect(cautions).toBeHidden();
  await expect(clock).toContainText('Your clock is stopped');
  await press(page, starts.first());
  await press(page, cautions.getByRole('button', { name: 'Read. Start the clock' }));
  await expect(clock).toContainText(first);
  await expect(clock.getByRole('timer')).toBeVisible();
  // The running item is in the top third of the screen, where the eye is.
  expect((await clock.getByRole('timer').boundingBox())?.y).toBeLessThan(780 / 3);

  const second = await titleOf(starts.first());
  expect(second).not.toBe(first);
  await press(page, starts.first());
  const read = cautions.getByRole('button', { name: 'Read. Start the clock' });
  await expect(read.or(clock.getByText(second))).toBeVisible();
  if (await read.isVisible()) await press(page, read);
  await expect(clock).toContainText(second);

  const stopped = sent(page, '"kind":"stop"');
  await press(page, page.getByRole('button', { name: 'Stop', exact: true }), 'Space');
  await expect(clock).toContainText('Your clock is stopped');
  await stopped;
  await page.reload();
  await expect(clock).toContainText('Your clock is stopped');
});

test('The mechanic notes a finding by keyboard, and is told what a line must say', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 780 });
  await signInByForm(page, 'mechanic');
  await press(page, page.getByRole('link', { name: 'Found something' }));
  await press(page, page.getByRole('button', { name: 'Note it' }));
  const line = page.getByLabel('What it is');
  await expect(line).toBeFocused();
  await expect(page.getByText('Say in a line what it is.')).toBeVisible();
  await page.keyboard.type('Placard at the fuel cap worn');
  await tabTo(page, page.getByLabel('More of it'));
  await page.keyboard.type('Readable, edges lifted.');
  await tabTo(page, page.getByRole('combobox', { name: 'Where' }));
  await page.keyboard.type('Fuel');
  await tabTo(page, page.getByRole('radio', { name: /Discrepancy/ }));
  await page.keyboard.press('ArrowDown');
  await expect(page.getByRole('radio', { name: /Observation/ })).toBeChecked();
  await axeFree(page);
  const noted = sent(page, 'Placard at the fuel cap worn');
  await press(page, page.getByRole('button', { name: 'Note it' }));
  await expect(page.getByRole('region', { name: 'Your clock' })).toBeVisible();
  await noted;
  await expect(page.getByRole('region', { name: 'Notice' })).toHaveCount(0);
});

test('The inspector initials an item by keyboard, and reads what is missing', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 860 });
  await signInByForm(page, 'inspector');
  await press(page, page.getByRole('link', { name: 'Records', exact: true }));
  await press(page, page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }));
  const initials = page.getByRole('button', { name: /^Initial: / });
  await expect(initials.first()).toBeVisible();
  const left = await initials.count();
  const missing = page.getByRole('region', { name: 'What is missing' });
  const things = async () => Number(/signed: (\d+)/.exec((await missing.textContent()) ?? '')?.[1]);
  const before = await things();
  await press(page, initials.first());
  await expect(initials).toHaveCount(left - 1);
  await expect.poll(things).toBe(before - 1);
  // What is missing alike stands once, with the items folded under their number; none is left out.
  const initialled = missing.getByRole('definition').filter({ hasText: 'initials on the item' });
  const each = initialled.getByRole('listitem');
  await expect(each.last()).toBeHidden();
  await press(page, initialled.locator('summary'), 'Space');
  await expect(each.last()).toBeVisible();
  await expect(initialled.locator('summary')).toHaveText(`${await each.count()} items`);
  await axeFree(page);
  await expect(page.getByRole('button', { name: 'Sign this entry' })).toHaveCount(0);
});

test('The manager sees the hangar and draws a coming change by keyboard', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 860 });
  await signInByForm(page, 'manager');
  const plan = page.getByRole('region', { name: 'The hangar in plan' });
  const moment = plan.getByRole('status', { name: 'Drawn' });
  await expect(moment).toContainText('As it stands now');
  await expect(plan.getByRole('listitem').filter({ hasText: 'QQ-117' })).toContainText(/day \d+/);
  await press(page, page.getByRole('button', { name: 'Next change' }));
  await expect(moment).toContainText(/As planned for|should have/);

  const rows = page.getByRole('button', { name: /comes to stand|leaves stand|should have/ });
  const leaves = rows.filter({ hasText: /leaves stand/ }).first();
  const said = /(QQ-\d+) leaves (stand \d+)/.exec((await leaves.textContent()) ?? '');
  await tabTo(page, leaves);
  await expect(leaves).toHaveAttribute('aria-pressed', 'true');
  await expect(moment).toContainText(said?.[0] ?? 'a departure');
  await expect(plan.getByRole('listitem').filter({ hasText: said?.[1] ?? '?' })).toContainText(
    `leaves ${said?.[2]}`,
  );
  await axeFree(page);
});
