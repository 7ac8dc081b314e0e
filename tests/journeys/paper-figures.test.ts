import { expect, type Page, test } from '@playwright/test';
import { info, poppler, words } from '../api/paper/printed.ts';
import { signIn } from './people.ts';

/**
 * Paper and page side by side, as a customer and the desk have them: every figure with a point or a comma
 * that is printed stands on the page, and every amount of the page's lists is printed.
 */
test.describe.configure({ timeout: 180_000 });
// biome-ignore lint/suspicious/noSkippedTests: it names what the machine lacks, and CI lacks nothing
test.skip(!poppler, 'pdftotext is not installed: what the papers say is not read here.');

const FIGURE = /(?<![\d.,])(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+\.\d+)(?![\d])/g;
const figuresIn = (text: string) => new Set(text.match(FIGURE) ?? []);

async function printed(page: Page): Promise<Buffer> {
  const href = await page.locator('a[href*=".pdf"]').first().getAttribute('href');
  const answer = await page.request.get(href ?? '');
  expect(answer.headers()['content-type']).toBe('application/pdf');
  return answer.body();
}

/** All that the page says, also what is folded: as it runs on, and piece by piece, for pieces that meet without a space. */
const said = (page: Page) =>
  page.evaluate<string>(`(() => {
    const main = document.querySelector('main');
    const pieces = [...main.querySelectorAll('*')].flatMap(({ childNodes }) =>
      [...childNodes].flatMap(({ nodeType, data }) => (nodeType === 3 ? [data] : [])));
    return [main.textContent, ...pieces].join(' ');
  })()`);
const inLists = (page: Page) =>
  page.evaluate<string>(
    "[...document.querySelectorAll('main table td, main table th')].map((cell) => cell.textContent).join(' ')",
  );

async function sideBySide(page: Page): Promise<void> {
  const bytes = await printed(page);
  expect(await info(bytes)).toContain('Tagged');
  const paper = await words(bytes);
  const onPaper = figuresIn(paper);
  // Parts of an address or a number of a part are no figures of the offer; both print them alike.
  // Cells of a table stand without a space between them in the text of the page.
  const onPage = figuresIn(`${await said(page)} ${await inLists(page)}`);
  expect(onPaper.size).toBeGreaterThan(4);
  // Paper writes out the ends of a range, which the page only draws; what is exact, and every hour, stands on both.
  const written = [...onPaper].filter((figure) => figure.includes('.'));
  const isOnPage = (figure: string) =>
    onPage.has(figure) || onPage.has(figure.replace(/\.00$/, ''));
  expect(written.filter((figure) => !isOnPage(figure))).toEqual([]);
  // Amounts to the cent; the drawn quantiles are told in words to who cannot see them, and only drawn on paper.
  const amounts = [...figuresIn(await inLists(page))].filter((figure) => /\.\d{2}$/.test(figure));
  expect(amounts.filter((figure) => !onPaper.has(figure))).toEqual([]);
}

test('A quote and an invoice say on paper what their pages say, figure by figure', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  // Both are agreed. Of an offer by time and materials the page rounds what is only estimated, and folds its reasons.
  for (const name of [/QQ-163, 50-hour oil service/, /QQ-117, 100-hour inspection/]) {
    await page.goto('/desk');
    await page
      .getByRole('table', { name: 'Quotes, newest first' })
      .getByRole('link', { name })
      .first()
      .click();
    await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
    await page.waitForLoadState('networkidle');
    await test.step(String(name), () => sideBySide(page));
  }
  await page.goto('/books');
  await page.getByRole('link', { name: /^Invoice 411/ }).click();
  await expect(page.getByRole('table', { name: 'What is billed, before tax' })).toBeVisible();
  await sideBySide(page);
});
