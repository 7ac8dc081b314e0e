import { expect, type Page, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** What happens at the bench when the clock was wrong, and when a piece of work is not done on this visit. */

const changed = (page: Page, words: string) =>
  page.waitForResponse(
    (response) => response.ok() && (response.request().postData() ?? '').includes(words),
  );

/** Opens the sheet of the first item that is to do, and says where it is. */
async function toItem(page: Page): Promise<string> {
  await page.goto('/bench');
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  return page.url();
}

test('A mechanic who forgot the clock gives it a better time, with the reason', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 740 });
  // Whose clock no other journey touches: an earlier beginning must not meet another stretch of theirs.
  await signIn(page, 'inspector');
  const item = await toItem(page);
  await page.getByRole('button', { name: /^(Start the clock|Switch the clock)/ }).click();
  const cautions = page.getByRole('dialog');
  const stop = page.getByRole('button', { name: 'Stop the clock', exact: true });
  const read = cautions.getByRole('button', { name: 'Read. Start the clock' });
  await expect(read.or(stop)).toBeVisible();
  if (await read.isVisible()) await read.click();
  await expect(stop).toBeVisible();
  const stopped = changed(page, '"kind":"stop"');
  await stop.click();
  await stopped;
  await page.goto(item);
  const clocked = page.getByRole('region', { name: 'What was clocked' });
  const mine = clocked.getByRole('listitem').filter({ hasText: /0:0\d h\s*Hesper Lyle/ });
  const wrong = mine.locator('summary').first();
  await wrong.click();
  const began = mine.getByLabel('It began');
  const correct = mine.getByRole('button', { name: 'Correct the clock' });
  await expect(correct).toBeDisabled();
  // An hour and a half before: the clock was started late.
  const early = new Date(new Date(`${await began.inputValue()}Z`).getTime() - 90 * 60_000);
  await began.fill(early.toISOString().slice(0, 16));
  await expect(mine.getByRole('list', { name: 'What follows from it' })).toContainText(
    /0:0\d h becomes 1:3\d h/,
  );
  await correct.click();
  await expect(mine).toContainText('Say why: it stays with the new time.');
  await mine.getByLabel('Why').fill('Began before the clock was at hand');
  await axeFree(page);
  const done = changed(page, 'mutation CorrectClock');
  await correct.click();
  expect(JSON.stringify(await (await done).json())).not.toContain('Refusal');
  await expect(clocked).toContainText(/1:3\d\s*h/);
  await page.reload();
  await expect(clocked).toContainText(/1:3\d\s*h/);
});

test('A mechanic is told who puts an item off; an inspector does it with the reason, and takes it up again', async ({
  browser,
}) => {
  const open = async (who: Parameters<typeof signIn>[1]) => {
    const page = await (
      await browser.newContext({ viewport: { width: 360, height: 740 } })
    ).newPage();
    await signIn(page, who);
    return page;
  };
  const mechanic = await open('mechanic');
  const item = await toItem(mechanic);
  await mechanic.getByText('It is not done on this visit').click();
  await expect(mechanic.getByText('An inspector or the front desk puts it off')).toBeVisible();
  await expect(mechanic.getByRole('button', { name: /put it off/i })).toHaveCount(0);
  await mechanic.context().close();

  const inspector = await open('inspector');
  await inspector.goto(item);
  const title = (await inspector.getByRole('heading', { level: 1 }).textContent()) ?? '';
  await inspector.getByText('It is not done on this visit').click();
  const put = inspector.getByRole('button', { name: /put it off/i });
  await expect(inspector.getByText('no entry says that it was done')).toBeVisible();
  await put.click();
  await expect(inspector.getByText(/Say why: it stands beside the item/)).toBeVisible();
  await inspector.getByLabel('Why it is put off').fill('The part comes next week');
  await axeFree(inspector);
  const done = changed(inspector, 'mutation PutOffItem');
  await put.click();
  expect(JSON.stringify(await (await done).json())).not.toContain('Refusal');
  await expect(inspector.getByRole('region', { name: 'Your clock' })).toBeVisible();
  await expect(inspector.getByRole('link', { name: `Sheet of ${title}`, exact: true })).toHaveCount(
    0,
  );
  await inspector.goto(item);
  await expect(inspector.getByRole('main')).toContainText('put off');
  await inspector.getByRole('button', { name: /take it up again/ }).click();
  await expect(inspector.getByRole('heading', { name: 'It is done' })).toBeVisible();
  await inspector.context().close();
});
