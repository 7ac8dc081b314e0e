import { expect, type Page, type Route, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/** What a sheet says when the shop refuses, has nothing to show, or cannot be reached. */

type Answer = (route: Route) => Promise<void>;

/**
 * Stands between a page and the shop: once set, answers every question but who is reading. One for a whole test, so that
 * an answer under way ends as it began. The page does not follow the shop: it asks when somebody says so.
 */
async function standBetween(page: Page): Promise<{ answer: Answer | null }> {
  const between: { answer: Answer | null } = { answer: null };
  await page.route('**/graphql/stream*', (route) => route.abort());
  await page.route('**/graphql', async (route) => {
    const about = route.request().postData() ?? '';
    if (between.answer === null || about.includes('query Viewer')) await route.continue();
    else await between.answer(route);
  });
  return between;
}

const refuse = (route: Route) =>
  route.fulfill({
    status: 200,
    contentType: 'application/graphql-response+json',
    body: JSON.stringify({
      errors: [{ message: 'Not yours: a test refused it.', extensions: { code: 'FORBIDDEN' } }],
    }),
  });

/** The shop's own answer with every list empty. */
async function nothing(route: Route): Promise<void> {
  const response = await route.fetch();
  const emptied = (value: unknown): unknown => {
    if (Array.isArray(value)) return [];
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, of]) => [key, emptied(of)]));
  };
  await route.fulfill({ response, json: emptied(await response.json()) });
}

// What is still being answered when a test ends is nobody's fault.
test.afterEach(({ page }) => page.unrouteAll({ behavior: 'ignoreErrors' }));

const sheets = {
  'front desk': [
    ['/desk', /No quote has been made yet/, 'Quotes, newest first'],
    ['/stores', /Nothing lies in stores/, 'On the shelves'],
    ['/stores/orders', /Nothing was ordered yet/, 'Below the reorder point'],
    ['/books', /No invoice has been drafted yet/, 'Settled'],
  ],
  inspector: [
    ['/records', /No aircraft is here to be inspected/, 'To inspect, sign and release'],
    ['/records/directives', /No directive is entered yet/, /^Entered here/],
    ['/records/parts', /No part with a time of its own is entered yet/, 'On the shelf first'],
    ['/bench', /No aircraft is here with work to do/, ''],
  ],
} as const;

for (const who of ['front desk', 'inspector'] as const) {
  test(`The sheets of the ${who} say what was refused, ask again, and draw what is not there yet`, async ({
    page,
  }) => {
    await page.setViewportSize({ width: 360, height: 780 });
    await signIn(page, who);
    const between = await standBetween(page);
    for (const [path, empty, table] of sheets[who]) {
      await test.step(path, async () => {
        between.answer = refuse;
        await page.goto(path);
        const alert = page.getByRole('main').getByRole('alert').first();
        await expect(alert).toContainText('Not yours: a test refused it.');
        await axeFree(page);
        between.answer = null;
        await page.getByRole('button', { name: 'Ask again' }).first().click();
        await expect(
          table === ''
            ? page.getByRole('region', { name: 'Your clock' })
            : page.getByRole('table', { name: table }),
        ).toBeVisible();
        await expect(alert).toHaveCount(0);

        between.answer = nothing;
        await page.reload();
        await expect(page.getByText(empty)).toBeVisible();
        await expect(page.getByRole('main').locator('svg').first()).toBeVisible();
        await axeFree(page);
      });
    }
  });
}

test('A sheet of a thing that is not there says so and leads back', async ({ page }) => {
  await signIn(page, 'manager');
  for (const [path, words, back] of [
    ['/desk/quotes/UXVvdGU6MA', /no such quote|No quote/, 'All quotes'],
    ['/desk/orders/V29ya09yZGVyOjA', /no such order|No order/, 'All orders'],
    ['/records/V29ya09yZGVyOjA', /no such order|No order/, 'All orders'],
    ['/records/parts/Q29tcG9uZW50OjA', /no such part|No part/, 'All parts'],
    ['/stores/lots/TG90OjA', /no such lot|No lot/, 'All shelves'],
    ['/stores/parts/UGFydDow', /no such part|No part/, 'All shelves'],
    ['/stores/orders/UHVyY2hhc2VPcmRlcjow', /No purchase order/, 'All purchase orders'],
    ['/shop/packages/UGFja2FnZTow', /no such package|No package/, 'All packages'],
  ] as const) {
    await page.goto(path);
    await expect(page.getByRole('main').getByRole('alert')).toContainText(words);
    await expect(page.getByRole('main').getByRole('link', { name: back })).toBeVisible();
  }
});

test('With the line down a sheet says so, and goes on when somebody asks again', async ({
  page,
}) => {
  await signIn(page, 'inspector');
  await page.clock.install();
  const between = await standBetween(page);
  between.answer = (route) => route.abort();
  await page.goto('/records');
  await expect(page.getByText('Fetching the orders')).toBeVisible();
  // It asks three times more by itself, further and further apart.
  const alert = page.getByRole('main').getByRole('alert');
  await expect(async () => {
    await page.clock.fastForward(5000);
    await expect(alert).toContainText('cannot be reached from here', { timeout: 500 });
  }).toPass();
  between.answer = null;
  await page.getByRole('button', { name: 'Ask again' }).click();
  await expect(page.getByRole('table', { name: 'To inspect, sign and release' })).toBeVisible();
});
