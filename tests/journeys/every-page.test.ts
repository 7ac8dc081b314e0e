import { expect, type Page, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';

/**
 * Each page that a person can reach, reached as they reach it, by its link: at the width of a
 * telephone and of a desk, by day and by night. Asserts on what stays true of the demo shop whatever
 * the other journeys do in it.
 */
test.describe.configure({ timeout: 240_000 });

/** At the desk by day, on a telephone by night: contrast does not depend on the width, nor the rest on the light. */
const seen = [
  [1440, 'light'],
  [360, 'dark'],
] as const;

/** How far a page reaches beyond its side. */
const pixelsBeyond = (page: Page) =>
  page.evaluate<number>('document.documentElement.scrollWidth - innerWidth');

/** One h1, nothing beyond the side, and nothing that axe refuses, in both widths and both lights. */
async function stands(page: Page, name: string): Promise<void> {
  await test.step(name, async () => {
    await expect(page.locator('main h1')).toHaveCount(1);
    await expect(page.getByRole('alert').and(page.locator('main *'))).toHaveCount(0);
    for (const [width, colorScheme] of seen) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 860 });
      const beyond = await pixelsBeyond(page);
      expect(beyond, `${name} at ${width} px, pixels beyond the side`).toBeLessThanOrEqual(0);
      await test.step(`${width} px, ${colorScheme}`, () => axeFree(page));
    }
    await page.setViewportSize({ width: 1440, height: 860 });
  });
}

/** Everything that the browser complains of; a page has nothing to complain of. */
function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error')
      complaints.push(`${message.text()} ${message.location().url} (${page.url()})`);
  });
  page.on('pageerror', (error) => complaints.push(`${error.message} (${page.url()})`));
  return complaints;
}

/** Follows a word across the top and waits for what the sheet is made of. */
async function turnTo(page: Page, word: string, content: RegExp): Promise<void> {
  await page.getByRole('navigation', { name: 'Sheets' }).getByRole('link', { name: word }).click();
  await expect(page.getByRole('main')).toContainText(content);
}

/** Follows a word of the hours and waits for what its sheet is made of. */
async function turnToHours(page: Page, word: string, content: RegExp): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Sheets of the hours' })
    .getByRole('link', { name: word })
    .click();
  await expect(page.getByRole('main')).toContainText(content);
}

/** The words across the top are this person's, and no others. */
async function hasWords(page: Page, words: string[]): Promise<void> {
  const links = page.getByRole('navigation', { name: 'Sheets' }).getByRole('link');
  await expect(links).toHaveText(words);
}

test('A stranger finds the way in, and a plain word where nothing is drawn', async ({ page }) => {
  const complaints = complaintsOf(page);
  await page.goto('/records');
  await expect(page).toHaveURL(/\/sign-in/);
  await stands(page, 'sign-in');
  expect(complaints.filter((each) => !/40[14]/.test(each))).toEqual([]);
  await page.goto('/nothing/is/here');
  await expect(page.getByRole('heading', { level: 1, name: 'No such sheet' })).toBeVisible();
  await stands(page, 'not found');
  await page.getByRole('link', { name: 'To your sheet' }).click();
  await expect(page).toHaveURL(/\/sign-in/);
  // What is forwarded to the API does not tell where the API is.
  const headers = (await page.request.get('/readyz')).headers();
  expect(headers['x-content-type-options']).toBe('nosniff');
  expect(Object.values(headers).join(' ')).not.toMatch(/127\.0\.0\.1|localhost/);
});

test('The specimen shows every mark by day and by night, for the desk and for the bench', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  for (const reading of ['desk', 'bench']) {
    await page.goto(`/specimen?reading=${reading}`);
    await expect(page.getByRole('heading', { level: 1, name: 'Specimen sheet' })).toBeVisible();
    await test.step(`specimen, ${reading}`, async () => {
      for (const [width, colorScheme] of seen) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 860 });
        expect(await pixelsBeyond(page)).toBeLessThanOrEqual(0);
        await axeFree(page);
      }
    });
  }
  expect(complaints).toEqual([]);
});

test('The front desk has the floor, its desk, and every quote and order behind them', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'front desk');
  await hasWords(page, ['Floor', 'Front desk', 'Stores', 'Books', 'Hours']);
  await turnTo(page, 'Floor', /Stand 1[\s\S]*Taken today/);
  await page.getByRole('button', { name: 'Plan a stay' }).click();
  await expect(page.getByRole('form', { name: 'Plan a stay' })).toBeVisible();
  await stands(page, 'floor with the form of a stay');
  await turnTo(page, 'Front desk', /Quotes, newest first[\s\S]*Orders/);
  await stands(page, 'desk');
  await page.getByRole('link', { name: 'Post', exact: true }).click();
  await expect(page.getByText('No mail server is set')).toBeVisible();
  await stands(page, 'post');
  await turnTo(page, 'Front desk', /Quotes, newest first/);

  await page.getByRole('link', { name: 'New quote' }).click();
  await page.getByRole('combobox', { name: 'Aircraft' }).fill('QQ-149');
  await page.getByRole('option', { name: /QQ-149/ }).click();
  await page.getByRole('combobox', { name: 'Add a task' }).fill('Inspect drive belts');
  await page.getByRole('option', { name: /^Inspect drive belts/ }).click();
  await expect(page.getByText('Total, net')).toBeVisible();
  await stands(page, 'new quote');
  await page.getByRole('button', { name: 'Keep as a draft' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+$/ })).toBeVisible();
  await stands(page, 'quote, draft');
  await page.getByRole('button', { name: 'Send', exact: true }).click();
  await expect(page.getByText('sent, waits')).toBeVisible();
  await page.getByLabel('Go ahead').check();
  await stands(page, 'quote, sent');
  await page.getByLabel('Not now').check();
  await page.getByRole('button', { name: 'Record the no' }).click();
  await expect(page.getByText('declined').first()).toBeVisible();
  await stands(page, 'quote, declined');

  await turnTo(page, 'Front desk', /Orders/);
  await page
    .getByRole('link', { name: /QQ-163, 50-hour oil service/ })
    .first()
    .click();
  await expect(page.getByText('accepted').first()).toBeVisible();
  await stands(page, 'quote, accepted');
  for (const [registration, state] of [
    ['QQ-156', 'planned'],
    ['QQ-117', 'here'],
    ['QQ-163', 'released'],
  ] as const) {
    await turnTo(page, 'Front desk', /Orders/);
    const orders = page.getByRole('table', { name: 'Orders' });
    await orders
      .getByRole('link', { name: new RegExp(registration) })
      .last()
      .click();
    await expect(page.getByRole('heading', { level: 1, name: /^Order \d+$/ })).toBeVisible();
    await stands(page, `order, ${state}`);
  }
  expect(complaints).toEqual([]);
});

test('The front desk has the stores, the books and the hours', async ({ page }) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'front desk');
  await turnTo(page, 'Stores', /On the shelves/);
  await stands(page, 'stores');
  await page.getByRole('button', { name: 'Receive a delivery' }).click();
  await stands(page, 'stores with the form of a delivery');
  await page.goto('/stores');
  const shelves = page.getByRole('table', { name: 'On the shelves' });
  await shelves.getByRole('link', { name: 'CL-1410' }).click();
  await expect(page.getByRole('table', { name: 'What happened to it' })).toBeVisible();
  await page.getByRole('button', { name: 'Count', exact: true }).click();
  await stands(page, 'a lot');
  await page.getByRole('link', { name: 'OT-7160-11' }).click();
  await expect(page.getByRole('table', { name: /^Its lots/ })).toBeVisible();
  await page.getByRole('button', { name: /^Change what it is sold/ }).click();
  await stands(page, 'a part');
  const within = page.getByRole('navigation', { name: 'Sheets of the stores' });
  await within.getByRole('link', { name: 'Cores owed' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Cores owed' })).toBeVisible();
  await stands(page, 'cores owed');
  await within.getByRole('link', { name: 'Out with others' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Out with others' })).toBeVisible();
  await stands(page, 'out with others');
  await within.getByRole('link', { name: 'What to order' }).click();
  await page.getByRole('button', { name: 'Draft a purchase order' }).click();
  await stands(page, 'what to order');
  await turnTo(page, 'Books', /Settled/);
  await stands(page, 'books');
  await page.getByRole('link', { name: /^Invoice 411/ }).click();
  await expect(page.getByRole('table', { name: 'What is billed, before tax' })).toBeVisible();
  await stands(page, 'invoice');
  await page.getByRole('button', { name: 'Send by e-mail' }).click();
  await stands(page, 'invoice with the form of its mail');
  await page
    .getByRole('region', { name: 'From, to and for' })
    .getByRole('link', { name: 'Yusuf Marrable' })
    .click();
  await expect(page.getByRole('table', { name: /^What moved the account/ })).toBeVisible();
  await stands(page, 'statement of account');
  await turnTo(page, 'Hours', /How honest we are/);
  await stands(page, 'hours');
  expect(complaints).toEqual([]);
});

test('The front desk has the sheets behind the hours, but for those that are decided on', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'front desk');
  await turnTo(page, 'Hours', /How honest we are/);
  await turnToHours(page, 'What the place costs', /Held while fastening/);
  await stands(page, 'what the place costs');
  await turnToHours(
    page,
    'Are our estimates honest?',
    /beside five plain rules|No back-test was computed/,
  );
  await stands(page, 'are our estimates honest');
  await expect(page.getByRole('link', { name: 'Times that look odd' })).toHaveCount(0);
  expect(complaints).toEqual([]);
});

test('The mechanic has the floor, the bench, each item and the form of a finding', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'mechanic');
  await hasWords(page, ['Floor', 'Bench', 'Stores']);
  await turnTo(page, 'Floor', /Stand 1/);
  await turnTo(page, 'Bench', /QQ-188/);
  await page.locator('summary').first().click();
  await stands(page, 'bench');
  await page
    .getByRole('link', { name: /^Sheet of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: 'It is done' })).toBeVisible();
  await page.locator('details').evaluateAll((all) => {
    for (const each of all) each.setAttribute('open', '');
  });
  await stands(page, 'item');
  await page.getByRole('link', { name: 'Found something' }).click();
  await expect(page.getByRole('button', { name: 'Note it' })).toBeVisible();
  await stands(page, 'found something');
  expect(complaints).toEqual([]);
});

test('The inspector has the bench and the records, with an order to sign and an entry that is signed', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'inspector');
  await hasWords(page, ['Floor', 'Bench', 'Stores', 'Records', 'Hours']);
  await turnTo(page, 'Hours', /How honest we are/);
  await turnToHours(page, 'Times that look odd', /Until somebody decides/);
  await stands(page, 'times that look odd');
  await turnTo(page, 'Records', /To inspect, sign and release/);
  await stands(page, 'records');
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  await expect(page.getByRole('region', { name: 'What is missing' })).toBeVisible();
  await stands(page, 'order to sign');
  await page.getByRole('link', { name: 'All records of QQ-117' }).click();
  await expect(page.getByRole('region', { name: 'What falls due' })).toContainText('91.409');
  await page.locator('details').evaluateAll((all) => {
    for (const each of all) each.setAttribute('open', '');
  });
  await stands(page, 'records of an aircraft');
  await turnTo(page, 'Records', /To inspect, sign and release/);
  const within = page.getByRole('navigation', { name: 'Sheets of the records' });
  await within.getByRole('link', { name: 'Directives' }).click();
  await expect(page.getByRole('table', { name: /^Entered here/ })).toBeVisible();
  await page.locator('summary').first().click();
  await stands(page, 'directives');
  await within.getByRole('link', { name: 'Parts with times' }).click();
  await expect(page.getByRole('table', { name: 'On the shelf first' })).toBeVisible();
  await page.locator('summary').first().click();
  await stands(page, 'parts with times');
  await page.getByRole('table', { name: 'On the shelf first' }).getByRole('link').first().click();
  await expect(page.getByRole('table', { name: /^Where it was/ })).toBeVisible();
  await stands(page, 'a part with times');
  await within.getByRole('link', { name: 'Deadlines' }).click();
  await expect(page.getByText('calibration of a tool').first()).toBeVisible();
  await page.locator('details').evaluateAll((all) => {
    for (const each of all) each.setAttribute('open', '');
  });
  await stands(page, 'deadlines');
  await turnTo(page, 'Records', /To inspect, sign and release/);
  await page.getByRole('link', { name: /QQ-163, 50-hour oil service/ }).click();
  await expect(page.getByRole('article', { name: /^Signed entry/ })).toHaveCount(2);
  await stands(page, 'order, signed');
  await page.getByRole('link', { name: 'Print for the book' }).first().click();
  await expect(page).toHaveURL(/\/records\/entries\//);
  await expect(page.getByText('Hesper Lyle').first()).toBeVisible();
  await stands(page, 'signed entry');
  expect(complaints).toEqual([]);
});

test('The manager has every sheet of the desk and the records, to read', async ({ page }) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'manager');
  await hasWords(page, ['Floor', 'Front desk', 'Stores', 'Books', 'Records', 'Hours']);
  await turnTo(page, 'Floor', /Stand 1/);
  await stands(page, 'floor');
  await page.getByRole('link', { name: 'QQ-117', exact: true }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Order \d+$/ })).toBeVisible();
  const small = page.getByRole('main').locator('summary:has(img)').first();
  await expect(small.locator('img')).not.toHaveJSProperty('naturalWidth', 0);
  const words = (await small.locator('img').getAttribute('alt')) ?? '';
  expect(words.length).toBeGreaterThan(10);
  await small.press('Enter');
  const large = page.getByRole('figure').filter({ hasText: words });
  await expect(large.getByRole('img', { name: words })).not.toHaveJSProperty('naturalWidth', 0);
  const whole = await large.getByRole('link', { name: /^Whole/ }).getAttribute('href');
  const opened = await page.request.get(whole ?? '');
  expect(opened.headers()['content-type']).toMatch(/^image\//);
  await turnTo(page, 'Records', /To inspect, sign and release/);
  await page.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  await expect(page.getByRole('region', { name: 'What is missing' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Sign this entry' })).toHaveCount(0);
  await stands(page, 'order to sign, read by the manager');
  for (const [word, content] of [
    ['Front desk', /Orders/],
    ['Books', /Settled/],
    ['Hours', /How honest we are/],
  ] as const) {
    await turnTo(page, word, content);
  }
  expect(complaints).toEqual([]);
});

test('The manager has the sheets behind the hours, with what only they may do', async ({
  page,
}) => {
  const complaints = complaintsOf(page);
  await signIn(page, 'manager');
  await turnTo(page, 'Hours', /How honest we are/);
  await turnToHours(page, 'What the place costs', /Held while fastening/);
  await page.getByText('Change what is believed').click();
  await stands(page, 'what the place costs, with its form');
  await turnToHours(
    page,
    'Are our estimates honest?',
    /beside five plain rules|No back-test was computed/,
  );
  await stands(page, 'are our estimates honest, for the manager');
  expect(complaints).toEqual([]);
});
