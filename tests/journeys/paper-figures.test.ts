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
  // Both are agreed. An offer by time and materials, of which the page rounds what is only estimated, has its own below.
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
  const download = page.waitForEvent('download');
  await page.getByRole('link', { name: 'E-invoice, XML' }).click();
  expect((await download).suggestedFilename()).toBe('invoice-411.xml');
});

/** A figure as a quantity is written: 3.5, +1.8, −1.2, 336, 1,652, 1,180.00. */
const QUANTITY = /[+\u2212]?\d[\d,]*(?:\.\d+)?/g;

/** The rows of the page's list of what is offered: what each is, and its figures as they are seen. */
const rowsOnPage = (page: Page) =>
  page.evaluate<{ title: string; seen: string[] }[]>(`(() => {
    const rows = [...document.querySelectorAll('main table tbody tr')].filter((row) =>
      row.closest('table').caption.textContent.startsWith('What is offered'));
    const textOf = (node) => {
      const copy = node.cloneNode(true);
      // How an estimate came about stands on the page alone, and the words of its range are heard, not seen.
      for (const away of copy.querySelectorAll('details > :not(summary), .spoken, [aria-hidden="true"]')) away.remove();
      const pieces = [];
      const walk = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
      while (walk.nextNode()) pieces.push(walk.currentNode.data);
      return pieces.join(' ');
    };
    return rows.map((row) => {
      const cells = [...row.querySelectorAll('td:not([data-kind="balloon"])')];
      const [title] = [...cells[0].childNodes].map(({ textContent }) => textContent);
      return { title, seen: cells.slice(1).map(textOf) };
    });
  })()`);

test('An offer by time and materials says on paper what its page says, row by row and in its total', async ({
  page,
}) => {
  await signIn(page, 'front desk');
  await page.goto('/desk');
  await page
    .getByRole('table', { name: 'Quotes, newest first' })
    .getByRole('link', { name: /QQ-117, Exhaust collector cracked/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await page.waitForLoadState('networkidle');
  const paper = await words(await printed(page));
  const rows = await rowsOnPage(page);
  expect(rows.length).toBeGreaterThan(3);
  const ends = [...rows.slice(1).map(({ title }) => title), 'Total, net'];
  let [at, ranges] = [0, 0];
  for (const [index, { title, seen }] of rows.entries()) {
    const from = paper.indexOf(title, at);
    const to = paper.indexOf(ends[index] ?? '', from + title.length);
    expect([from >= 0, to > from], title).toEqual([true, true]);
    const said: readonly string[] = paper.slice(from + title.length, to).match(QUANTITY) ?? [];
    const figures = seen.flatMap((text) => text.match(QUANTITY) ?? []);
    expect(figures.length, title).toBeGreaterThan(0);
    expect(
      figures.filter((figure) => !said.includes(figure)),
      `${title}: on the page and not on its row of paper, which says ${said.join(' ')}`,
    ).toEqual([]);
    ranges += figures.filter((figure) => figure.startsWith('+')).length;
    at = to;
  }
  expect(ranges).toBeGreaterThan(0);

  // The total: what the page writes at its long dimension and under its list, and nothing else in those words.
  const main = page.getByRole('main');
  const total = main.getByRole('figure').filter({ hasText: 'Total, net' });
  const figureIn = async (words: RegExp) => words.exec((await total.textContent()) ?? '')?.[1];
  const money = '(\\d[\\d,]*(?:\\.\\d+)?)';
  const cell = async (name: string) =>
    (await main.getByRole('row', { name }).getByRole('cell').last().textContent())?.match(
      QUANTITY,
    )?.[0];
  const pairs: [string, string | undefined][] = [
    ['As likely over as under', await figureIn(new RegExp(`${money}\\s*USD, as likely`))],
    ['Firm', await figureIn(new RegExp(`firm\\s*${money}`))],
    ['Nine in ten come out under', await figureIn(new RegExp(`come out under\\s*${money}`))],
    ['Tax on the likely amount', await cell('Tax on the likely amount')],
    ['Likely, with tax', await cell('Likely, with tax')],
  ];
  const sums = paper.slice(paper.indexOf('Total, net'));
  for (const [name, figure] of pairs) {
    expect(figure, name).toBeDefined();
    expect(sums, name).toContain(`${name} ${figure}`);
  }
  const together = main.getByText('All its work together');
  const [hours = '', up = '', down = ''] = (await together.textContent())?.match(QUANTITY) ?? [];
  expect(sums).toContain(`All its work together: ${hours} h ${up} ${down}`);
});
