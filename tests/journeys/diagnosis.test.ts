import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/** From what a mechanic sees to what it may be, to what it turned out to be. */

const narrow = { width: 360, height: 740 };
const sent = (page: Page, words: string) =>
  page.waitForResponse(
    (response) => response.ok() && (response.request().postData() ?? '').includes(words),
  );
/** An answer, wherever it stands: the less likely ones are folded. */
async function answer(page: Page, words: string): Promise<void> {
  const row = page.getByRole('button', { name: words, exact: true });
  if (!(await row.isVisible())) await page.getByText(/^\d+ other answers$/).click();
  await row.click();
}

test('A mechanic without a network says what they see and is told what it may be; the shop’s own answer follows', async ({
  page,
  context,
}) => {
  await page.setViewportSize(narrow);
  await signIn(page, 'mechanic');
  await page.goto('/bench');
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  const item = page.url();
  await page.getByRole('link', { name: 'Found something' }).first().click();
  await expect(page.getByLabel('What it is')).toBeVisible();
  // What is fetched when the page is idle is here before the network goes.
  await page.waitForLoadState('networkidle');
  await context.setOffline(true);

  const title = 'Oil drips below the pump';
  await page.getByLabel('What it is').fill(title);
  await page.getByRole('button', { name: /^Say what you see/ }).click();
  await page.getByRole('button', { name: /^Fluid where it should not be/ }).click();
  await expect(page.getByRole('group', { name: 'What is it?' })).toBeVisible();
  await answer(page, 'Oil, dark');
  await answer(page, 'Drain of the engine-driven fuel pump');
  const maybe = page.getByRole('region', { name: 'What it may be' });
  await expect(maybe.getByRole('status')).toContainText(
    'Most likely: Oil-side diaphragm of the engine-driven fuel pump leaks',
  );
  await maybe.getByText(/^why/).first().click();
  await expect(maybe).toContainText('It collects at the drain of the engine-driven fuel pump');
  await expect(maybe).toContainText(
    'Source: a defect report printed in an aviation-safety magazine',
  );
  await expect(maybe).toContainText('a person who holds the certificate and rating decides');
  await axeFree(page);

  await page.getByRole('button', { name: 'Note it' }).click();
  await expect(page.getByText(/not sent/i).first()).toBeVisible();
  const noted = sent(page, 'mutation NoteFinding');
  await context.setOffline(false);
  expect(JSON.stringify(await (await noted).json())).not.toContain('Refusal');

  await page.goto(item);
  await page
    .getByRole('link', { name: new RegExp(`^What it may be ?: ${title}`) })
    .first()
    .click();
  await expect(page.getByRole('heading', { level: 1, name: title })).toBeVisible();
  await expect(page.getByText(/^Rests on the program’s tables/)).toBeVisible();
  const says = page.getByRole('status').filter({ hasText: /likely/ });
  const before = await says.textContent();
  // The work that it leads to, with its hours, one touch away.
  await page.getByText(/^why/).first().click();
  await expect(page.getByText('Replace engine-driven fuel pump').first()).toBeVisible();
  await expect(page.getByText(/as likely over as under/).first()).toBeAttached();
  // A check that is made is one more answer.
  await page.getByText('Mirror to the fuel pump: pad, body, drain tube').click();
  await axeFree(page);
  const seen = sent(page, 'mutation SeeFinding');
  await page.getByRole('button', { name: /^Wet inside the tube/ }).click();
  expect(JSON.stringify(await (await seen).json())).not.toContain('Refusal');
  await expect(says).not.toHaveText(before ?? '');
  await expect(says).toContainText(/9\d %/);
});

test('An inspector reads beside a finding what it may be', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await signIn(page, 'inspector');
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  const collector = page.getByRole('article').filter({ hasText: 'Exhaust collector cracked' });
  await collector.getByText(/^What it may be/).click();
  await expect(collector.getByRole('status')).toContainText('Exhaust pipe or collector cracked');
  await axeFree(page);
});

test('An inspector says in words what a finding turned out to be; the last word stands', async ({
  page,
}) => {
  await page.setViewportSize(narrow);
  await signIn(page, 'inspector');
  await page.goto('/records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  const dust = page.getByRole('article').filter({ hasText: 'Fine black dust below the belts' });
  await dust.getByText(/^It turned out to be: /).click();
  const part = dust.getByRole('region', { name: 'What it turned out to be' });
  await expect(part).toContainText('that nothing is wrong, at any time');
  await part.getByLabel('It turned out to be').selectOption('normal');
  await part.getByRole('button', { name: 'Record it' }).click();
  await expect(part.getByRole('alert')).toContainText('Say in a few words what it was.');
  await part.getByLabel('Why it is normal').fill('New belts shed dust for ten hours');
  const said = sent(page, 'mutation SayOutcome');
  await part.getByRole('button', { name: 'Record it' }).click();
  expect(JSON.stringify(await (await said).json())).not.toContain('Refusal');
  await expect(part).toContainText('New belts shed dust for ten hours');
  await axeFree(page);
});
