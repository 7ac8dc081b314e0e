import { randomUUID } from 'node:crypto';
import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/**
 * The owner of QQ-117 decides on a phone, without script, about the finding that waits for them. No JavaScript runs in
 * the owner's browser; the checker of the page's tree runs its own in a second look at the same page.
 */
test.describe.configure({ mode: 'serial' });

let desk: Page;
let owner: Page;
let order: string;
let link: string;

test.beforeAll(async ({ browser }) => {
  desk = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  await signIn(desk, 'front desk');
  owner = await (
    await browser.newContext({ viewport: { width: 360, height: 780 }, javaScriptEnabled: false })
  ).newPage();
});

test('The front desk makes a link, and its address is shown once', async () => {
  await desk.goto('/desk');
  await desk
    .getByRole('table', { name: 'Orders' })
    .getByRole('link', { name: /QQ-117, 100-hour inspection/ })
    .click();
  await expect(desk.getByRole('heading', { level: 1, name: /^Order \d+$/ })).toBeVisible();
  order = new URL(desk.url()).pathname;
  const part = desk.getByRole('region', { name: 'The owner’s page' });
  // The visit and its finding were quoted by e-mail: each mail carries a link of its own.
  const ways = part.getByRole('button', { name: /^Take back the link/ });
  await expect(ways).toHaveCount(2);
  await part.getByRole('button', { name: 'Make a link' }).click();
  const address = part.getByRole('textbox', { name: /Copy it now/ });
  await expect(address).toHaveValue(/\/owner\/[\w-]{43}$/);
  link = new URL(await address.inputValue()).pathname;
  await expect(ways).toHaveCount(3);
  await axeFree(desk);
  await desk.reload();
  await expect(ways).toHaveCount(3);
  await expect(address).toHaveCount(0);
});

test('The page tells the owner without script what waits for them, and looking decides nothing', async ({
  browser,
}) => {
  for (let looks = 0; looks < 3; looks += 1) {
    const answer = await owner.goto(link);
    expect(answer?.status()).toBe(200);
    expect(answer?.headers()['referrer-policy']).toBe('no-referrer');
    expect(answer?.headers()['cache-control']).toContain('no-store');
    expect(answer?.headers()['x-robots-tag']).toContain('noindex');
    // Its own few lines, which follow what happens, and nothing else.
    expect(answer?.headers()['content-security-policy']).toMatch(/script-src 'sha256-[^' ]+';/);
    expect((await answer?.text())?.match(/<script/g)).toHaveLength(1);
  }
  await expect(owner.getByText(/waits? for your answer\.$/)).toBeVisible();
  await expect(owner.getByText(/\d+ of \d+ items done/)).toBeVisible();
  await expect(owner.getByRole('button', { name: /^Go ahead/ })).toBeVisible();
  const wide = await owner.locator('html').evaluate((page) => page.scrollWidth);
  expect(wide).toBeLessThanOrEqual(360);
  for (const [width, colorScheme] of [
    [360, 'light'],
    [1440, 'dark'],
  ] as const) {
    const context = await browser.newContext({ viewport: { width, height: 780 }, colorScheme });
    const page = await context.newPage();
    await page.goto(link);
    await axeFree(page);
    await context.close();
  }
});

test('The photo of the finding opens through the link, and through no other', async ({
  request,
}) => {
  // Large already where it stands; by keyboard it folds and opens again, without script.
  const article = owner.getByRole('article').first();
  const large = article.getByRole('figure').getByRole('img').first();
  const words = (await large.getAttribute('alt')) ?? '';
  expect(words.length).toBeGreaterThan(10);
  await expect(article.getByRole('figure').first()).toContainText(words);
  const summary = article.locator('summary:has(img)').first();
  await summary.press('Enter');
  await expect(large).toBeHidden();
  await expect(summary.getByRole('img', { name: words })).toBeVisible();
  await summary.press('Enter');
  await expect(large).toBeVisible();
  const source = await large.getAttribute('src');
  expect((await request.get(source ?? '')).status()).toBe(200);
  expect((await request.get((source ?? '').replace(link, '/owner/guessed'))).status()).toBe(404);
});

test('A photo taken again after the correction stands beside the one of before, told by words as well', async ({
  browser,
}) => {
  const context = await browser.newContext();
  const mechanic = await context.newPage();
  await signIn(mechanic, 'mechanic');
  const graphql = async <Data>(query: string, variables: Record<string, unknown>) => {
    const response = await context.request.post('/graphql', {
      headers: { 'apollo-require-preflight': '1' },
      data: { query, variables },
    });
    return ((await response.json()) as { data: Data }).data;
  };
  const { node } = await graphql<{
    node: { findings: { title: string; clientEventId: string; photos: { id: string }[] }[] };
  }>(
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { findings { title clientEventId photos { id } } } } }',
    { id: decodeURIComponent(order.split('/').at(-1) ?? '') },
  );
  const finding = node.findings.find(({ title }) => title.startsWith('Exhaust collector cracked'));
  const before = finding?.photos[0]?.id ?? '';
  const id = randomUUID();
  const jpeg = await sharp({
    create: { width: 1200, height: 900, channels: 3, background: '#7d8a6a' },
  })
    .jpeg()
    .toBuffer();
  const tus = { 'x-fairlead': '1', 'tus-resumable': '1.0.0' };
  await context.request.post('/uploads', {
    headers: {
      ...tus,
      'upload-length': `${jpeg.length}`,
      'upload-metadata': `id ${Buffer.from(id).toString('base64')}`,
    },
  });
  const brought = await context.request.patch(`/uploads/${id}`, {
    headers: {
      ...tus,
      'upload-offset': '0',
      'content-type': 'application/offset+octet-stream',
    },
    data: jpeg,
  });
  expect(brought.status()).toBe(204);
  const photoId = brought.headers()['fairlead-photo'] ?? '';
  await graphql(
    'mutation($input: AddFindingPhotoInput!) { addFindingPhoto(input: $input) { __typename } }',
    { input: { clientEventId: finding?.clientEventId, photoId, beforeId: before } },
  );
  await context.close();

  await owner.goto(link);
  const card = owner.getByRole('article').filter({ hasText: 'Exhaust collector cracked' });
  const pair = card.getByRole('listitem').filter({ hasText: 'After' });
  await expect(pair.getByText('Before', { exact: true })).toBeVisible();
  await expect(pair.getByText('After', { exact: true })).toBeVisible();
  const [was, now] = [
    pair.locator('summary').getByRole('img', { name: /, before$/ }),
    pair.locator('summary').getByRole('img', { name: /, after$/ }),
  ];
  await was.scrollIntoViewIfNeeded();
  const [one, two] = [await was.boundingBox(), await now.boundingBox()];
  if (!one || !two) throw new Error('Both are drawn');
  // Side by side, also on a telephone, and neither off the page.
  expect(Math.abs(one.y - two.y)).toBeLessThan(2);
  expect(one.x + one.width).toBeLessThan(two.x);
  expect(one.width).toBeGreaterThan(110);
  expect(two.x + two.width).toBeLessThanOrEqual(360);
  expect(await was.getAttribute('src')).toContain(before);
  expect(await now.getAttribute('src')).toContain(photoId);
  await now.locator('xpath=ancestor::summary').press('Enter');
  const large = pair.getByRole('figure').getByRole('img', { name: /, after$/ });
  await expect(large).toBeVisible();
  expect((await large.boundingBox())?.width).toBeGreaterThan(280);
  await owner.screenshot({ path: test.info().outputPath('pair.png'), fullPage: true });
  const seen = await browser.newContext({ viewport: { width: 360, height: 780 } });
  const page = await seen.newPage();
  await page.goto(link);
  await axeFree(page);
  await seen.close();
});

test('Desk and owner see what the mechanic says as it happens, and what the owner typed stays', async ({
  browser,
}) => {
  const open = async () =>
    (await browser.newContext({ viewport: { width: 360, height: 780 } })).newPage();
  const [reader, mechanic] = [await open(), await open()];
  await reader.goto(link);
  await desk.goto(order);
  await signIn(mechanic, 'mechanic');
  const job = mechanic.locator('section', {
    has: mechanic.getByRole('heading', { name: /QQ-117/ }),
  });
  await job
    .getByRole('link', { name: /^Sheet of/ })
    .last()
    .click();
  await expect(mechanic.getByText('It has to wait')).toBeVisible();
  const title = (await mechanic.getByRole('heading', { level: 1 }).textContent()) ?? '?';
  await mechanic.getByText('It has to wait').click();
  await mechanic.getByRole('radio', { name: /hands/ }).check();
  await mechanic.getByRole('button', { name: /It waits$|it waits$/ }).click();
  await expect(reader.getByText(/1 waits for a second pair of hands/)).toBeVisible();
  await expect(desk.getByRole('row').filter({ hasText: title })).toContainText('waiting');

  await reader.getByLabel('Go ahead up to, before tax').fill('450');
  await job.getByRole('link', { name: `Sheet of ${title}`, exact: true }).click();
  await mechanic.getByRole('button', { name: /no longer waiting/ }).click();
  await expect(reader.getByRole('status')).toContainText('Something on this sheet is new');
  await expect(reader.getByLabel('Go ahead up to, before tax')).toHaveValue('450');
  await axeFree(reader);
  await reader.getByRole('link', { name: 'Read it again' }).click();
  await expect(reader.getByText(/1 waits for a second pair of hands/)).toHaveCount(0);
  await reader.context().close();
  await mechanic.context().close();
});

test('An amount that is none is refused with a sentence, and nothing is recorded', async () => {
  await owner.getByLabel('Go ahead up to, before tax').fill('plenty');
  await owner.getByRole('button', { name: /^Go ahead/ }).click();
  await expect(owner.getByRole('alert')).toContainText('An amount of "plenty" was refused');
  await expect(owner.getByRole('button', { name: /^Go ahead/ })).toBeVisible();
});

test('The owner says go ahead, and sees their answer with its time', async () => {
  await owner.goto(link);
  await owner.getByRole('button', { name: /^Go ahead/ }).click();
  await expect(owner.getByText('on the owner’s page', { exact: false })).toBeVisible();
  await expect(owner.getByText('Nothing waits for you.')).toBeVisible();
  await expect(owner.getByRole('button', { name: /^Go ahead/ })).toHaveCount(0);
});

test('The front desk sees the answer, and the correction is on the order', async () => {
  await desk.goto(order);
  const finding = desk.getByRole('article').filter({ hasText: 'Exhaust collector cracked' });
  await expect(finding).toContainText('agreed');
  await finding.getByRole('link', { name: /^Quote \d+/ }).click();
  await expect(desk.getByText('on the owner’s page', { exact: false }).first()).toBeVisible();
});

test('A link taken back, and one that was guessed, open the same page with one sentence', async () => {
  await desk.goto(order);
  // The newest stands first.
  await desk
    .getByRole('button', { name: /^Take back the link/ })
    .first()
    .click();
  await expect(desk.getByText(/taken back/)).toBeVisible();
  const pages = [];
  for (const address of [link, `/owner/${'A'.repeat(43)}`]) {
    const answer = await owner.goto(address);
    expect(answer?.status()).toBe(404);
    pages.push(await owner.getByRole('main').textContent());
  }
  expect(pages[0]).toContain('Ask the shop for a new one.');
  expect(pages[1]).toBe(pages[0]);
});
