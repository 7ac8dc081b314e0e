import { expect, type Page, test } from '@playwright/test';
import { seenTwice, signIn, signInInstead } from './people.ts';

/** Past the owner's yes, on an aircraft, an order and a part of its own, so that no other journey's figures move. */
test.describe.configure({ mode: 'serial' });

let page: Page;
/** What is made stays: a second try has its own. */
const own = () => ({ registration: `QQ-98${test.info().retry}`, part: `YM-${test.info().retry}` });
let orderId = '';
let orderNumber = 0;
let lotId = '';
let partId = '';

test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
});
test.afterAll(async () => {
  await page.context().close();
});

async function ask<T>(query: string, variables: Record<string, unknown> = {}): Promise<T> {
  const answer = await page.request.post('/graphql', {
    data: { query, variables },
    headers: { 'apollo-require-preflight': '1' },
  });
  const { data, errors } = (await answer.json()) as { data: T; errors?: unknown };
  expect(errors, JSON.stringify(errors)).toBeUndefined();
  return data;
}
const make = async (name: string, made: string, input: object): Promise<string> => {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { done } = await ask<{ done: { id?: string; message?: string } }>(
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on ${made} { id } ... on Refusal { message } } }`,
    { input },
  );
  expect(done.id, done.message).toBeDefined();
  return done.id ?? '';
};

test('Somebody agrees to 100.00 for one task, and their aircraft is here for it', async () => {
  await signIn(page, 'front desk');
  const { models, contacts, tasks } = await ask<{
    models: { id: string }[];
    contacts: { id: string }[];
    tasks: { edges: { node: { id: string; standardHours: string | null } }[] };
  }>(
    '{ models { id } contacts(named: "Yusuf Marrable") { id } tasks(first: 200) { edges { node { id standardHours } } } }',
  );
  const aircraftId = await make('addAircraft', 'Aircraft', {
    ...{ modelId: models[0]?.id, registration: own().registration, serial: own().part },
    ...{ meter: 'tachometer', readingHundredths: 10_000, tisHundredths: 10_000 },
  });
  const contactId = contacts[0]?.id;
  await make('nameContact', 'Aircraft', { aircraftId, contactId, capacity: 'owner' });
  const task = tasks.edges.find(({ node }) => node.standardHours !== null)?.node;
  const quoteId = await make('draftQuote', 'Quote', {
    ...{ aircraftId, contactId, tasks: [{ taskId: task?.id }], title: 'A small job' },
  });
  await make('sendQuote', 'Quote', { quoteId, revision: 1, channel: 'telephone' });
  await make('recordDecision', 'Quote', {
    ...{ quoteId, revision: 1, contactId, choice: 'go_ahead', ceiling: '10000' },
    ...{ channel: 'telephone', wordsShown: 'Up to 100.00, they said.' },
  });
  const { node } = await ask<{ node: { order: { id: string; number: number } } }>(
    'query($id: ID!) { node(id: $id) { ... on Quote { order { id number } } } }',
    { id: quoteId },
  );
  orderId = node.order.id;
  orderNumber = node.order.number;
  await make('receiveAircraft', 'WorkOrder', {
    ...{ orderId, received: [], squawks: [] },
    readings: [{ meter: 'tachometer', readingHundredths: 10_000 }],
  });
  await signInInstead(page, 'manager');
  partId = await make('addPart', 'Part', {
    ...{ number: own().part, title: `Bracket ${own().part}`, unit: 'each' },
    ...{ unitPrice: '90', category: 'parts' },
  });
  lotId = await make('receiveLot', 'Lot', {
    ...{ partId, supplier: 'Ebbsay Brackets', batch: own().part, tag: 'EB-1' },
    ...{ quantity: '5', unitCost: '60' },
  });
});

test('A second bracket is refused with the sum, and goes for a reason under a name', async () => {
  await signInInstead(page, 'inspector');
  await page.goto(`/stores/lots/${encodeURIComponent(lotId)}`);
  const issueOne = async () => {
    await page
      .getByRole('button', { name: /^Issue/ })
      .first()
      .click();
    const form = page.getByRole('form', { name: /^Issue / });
    const work = form.getByLabel('For which work');
    const option = work.locator('option', { hasText: own().registration });
    await work.selectOption(await option.getAttribute('value'));
    await form.getByRole('button', { name: 'Issue it' }).click();
    return form;
  };
  await issueOne();
  await expect(page.getByRole('status').filter({ hasText: 'issued to' })).toBeVisible();
  const form = await issueOne();
  await expect(form.getByRole('alert')).toContainText(
    /would go 80\.00 USD past the 100\.00 USD that are agreed: ask the owner for more/,
  );
  await expect(form.getByRole('button', { name: 'Issue it' })).toBeDisabled();
  await form.getByLabel('I know that it goes past what the owner agreed to').check();
  await form.getByLabel('Why it is issued all the same').fill('It holds the other one.');
  await seenTwice(page, 'issue');
  await form.getByRole('button', { name: 'Issue it' }).click();
  await expect(
    page.getByRole('status').filter({ hasText: 'past what the owner agreed to' }),
  ).toBeVisible();
});

test('What is ordered for it is said at the draft and at its order, and goes the same way', async () => {
  await signInInstead(page, 'front desk');
  await page.goto('/stores/orders');
  await page.getByRole('button', { name: 'Draft a purchase order' }).click();
  const form = page.getByRole('form', { name: 'Draft a purchase order' });
  await form.getByLabel('Supplier').fill('Ebbsay Brackets');
  await form.getByRole('combobox', { name: 'Add a part to the order' }).fill(own().part);
  await form.getByRole('option', { name: new RegExp(own().part) }).click();
  await form.getByLabel(`What one ${own().part} is to cost`).fill('60');
  const work = form.getByLabel(`For which work ${own().part} is`);
  const option = work.locator('option', { hasText: own().registration });
  await work.selectOption(await option.getAttribute('value'));
  await seenTwice(page, 'draft');
  await form.getByRole('button', { name: 'Keep the draft' }).click();
  const past = page.getByRole('region', { name: 'Past what owners agreed to' });
  // 180.00 are at the work, 90.00 would come: 170.00 past 100.00.
  await expect(past).toContainText('170.00 USD past the 100.00 USD');
  await expect(past.getByRole('button', { name: /^Ask the owner for 170\.00/ })).toBeVisible();
  await page.getByRole('button', { name: 'Send it' }).click();
  const send = page.getByRole('form', { name: /^Send order / });
  await send.getByLabel('How it goes').selectOption('telephone');
  await expect(send.getByRole('button', { name: 'It is sent' })).toBeDisabled();
  await send.getByLabel('I know that it goes past what the owner agreed to').check();
  await send.getByLabel('Why it is sent all the same').fill('They close for a week.');
  await seenTwice(page, 'send');
  await send.getByRole('button', { name: 'It is sent' }).click();
  await expect(
    page.getByText(/^Sent by telephone .* past what the owner agreed to: “They close/),
  ).toBeVisible();
  await seenTwice(page, 'purchase');
  await page.goto(`/desk/orders/${encodeURIComponent(orderId)}`);
  await expect(page.getByRole('region', { name: 'In the stores' })).toContainText(
    /1 each of Bracket .* on order for item 1, nobody said when, purchase order \d+/,
  );
  const beyond = page.getByRole('region', { name: 'Beyond authority' });
  await expect(beyond).toContainText('80.00 USD were worked past what the owner agreed to');
  await expect(beyond).toContainText('it goes 90.00 USD further');
  await seenTwice(page, 'order');
});

test('The desk’s list marks it, asks the owner in one touch, and hears 50.00 more', async () => {
  await page.goto('/desk');
  const row = page.locator(`#row-order-${orderNumber}`);
  await expect(row).toContainText(
    '170.00 USD beyond what the owner agreed to, with what is on order: ask',
  );
  await seenTwice(page, 'desk');
  await row.getByRole('link', { name: new RegExp(own().registration) }).click();
  await page.getByRole('button', { name: 'Ask the owner for 170.00 USD more' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /^Quote \d+/ })).toBeVisible();
  await expect(page.getByText(/This asks for 170\.00 USD more, before tax/)).toBeVisible();
  await expect(page.getByRole('link', { name: 'Make the next revision' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Send', exact: true }).click();
  await page.getByLabel('Go ahead', { exact: false }).first().check();
  await page.getByLabel('Up to, net').fill('50');
  await seenTwice(page, 'asked');
  await page.getByRole('button', { name: /^Record/ }).click();
  await expect(page.getByText(/accepted/).first()).toBeVisible();
});

test('The rest is written off by name, and the invoice bills no more than is agreed', async () => {
  await signInInstead(page, 'manager');
  await page.goto(`/desk/orders/${encodeURIComponent(orderId)}`);
  const beyond = page.getByRole('region', { name: 'Beyond authority' });
  await expect(beyond).toContainText('30.00 USD were worked past what the owner agreed to');
  await beyond.getByText('Write it off, or part of it').click();
  await expect(beyond.getByLabel('How much')).toHaveValue('30.00');
  await beyond.getByLabel('Why').fill('We broke the first one.');
  await seenTwice(page, 'write-off');
  await beyond.getByRole('button', { name: 'Write it off' }).click();
  await expect(beyond).toContainText(/Written off: 30\.00 USD, Bastian Ormeley/);
  const invoiceId = await make('draftInvoice', 'Invoice', { orderId });
  await page.goto(`/books/${encodeURIComponent(invoiceId)}`);
  await expect(page.getByRole('main')).toContainText('150.00');
  const { node } = await ask<{ node: { net: string; agreed: string; beyond: string } }>(
    'query($id: ID!) { node(id: $id) { ... on Invoice { net agreed beyond } } }',
    { id: invoiceId },
  );
  expect(node).toEqual({ net: '15000', agreed: '15000', beyond: '3000' });
  await seenTwice(page, 'invoice');
});
