/** Asking the owner for more on what is agreed: in one touch, once, and a yes raises the ceiling and nothing else. */
import { globalId, keyOf } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { bill, draft, release, type SoldVisit } from '../books/billing.ts';
import { answer as answerByLink, linkTo, pageAt } from '../owner/owner-shop.ts';
import { issue, soldUpTo } from '../stores/past-yes.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Asked {
  code?: string;
  message?: string;
  field?: string | null;
  id: string;
  state: string;
  more: boolean;
  title: string;
  newest: { revision: number; likely: string; lines: { title: string }[] };
}
async function ask(
  shop: TestShop,
  { order }: SoldVisit,
  amount?: string,
  role: 'front_desk' | 'mechanic' = 'front_desk',
): Promise<Asked> {
  const { data, errors } = await shop.as<{ done: Asked }>(
    role,
    'mutation($input: AskForMoreInput!) { done: askForMore(input: $input) { ... on Refusal { code message field } ... on Quote { id state more title newest { revision likely lines { title } } } } }',
    { input: { orderId: order, amount } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
}
async function answer(shop: TestShop, quoteId: string, revision: number, choice: string) {
  await shop.as(
    'front_desk',
    'mutation($input: SendQuoteInput!) { sendQuote(input: $input) { __typename } }',
    { input: { quoteId, revision, channel: 'telephone' } },
  );
  const { data, errors } = await shop.as<{ done: { code?: string; message?: string } }>(
    'front_desk',
    'mutation($input: RecordDecisionInput!) { done: recordDecision(input: $input) { __typename ... on Refusal { code message } } }',
    {
      input: {
        ...{ quoteId, revision, choice, channel: 'telephone', wordsShown: 'Read out.' },
        contactId: globalId('Contact', shop.contactId),
      },
    },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
}
const agreedOf = async (shop: TestShop, { order }: SoldVisit) => {
  const { data } = await shop.as<{
    node: { agreed: string; beyondAuthority: string; items: { id: string }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { agreed beyondAuthority items { id } } } }',
    { id: order },
  );
  return data?.node;
};

it('asks for what is past the yes, once; a yes raises the ceiling, opens no work, and bills what was worked', async () => {
  // 2.3 h × 95.00 = 218.50 of 200.00.
  const { shop, visit } = await soldUpTo(api, 8280);
  const asked = await ask(shop, visit);
  expect(asked).toMatchObject({
    state: 'draft',
    more: true,
    title: expect.stringMatching(/^More for order \d+, Test visit$/),
    newest: { revision: 1, likely: '1850' },
  });
  expect((await ask(shop, visit)).id).toBe(asked.id);
  expect((await answer(shop, asked.id, 1, 'go_ahead')).code).toBeUndefined();
  const after = await agreedOf(shop, visit);
  expect(after).toMatchObject({ agreed: '21850', beyondAuthority: '0' });
  expect(after?.items).toHaveLength(1);
  await release(shop, visit);
  const held = await draft(shop, visit);
  expect(held).toMatchObject({ net: '21850', agreed: '21850', beyond: '0', quoted: '19000' });
  const steps = held.difference.map(({ amount }) => BigInt(amount));
  expect(steps.reduce((sum, each) => sum + each, 0n)).toBe(21850n - 19000n);
  expect(JSON.stringify(held.difference)).not.toContain('More for order');
  expect((await bill(shop, 'issueInvoice', { invoiceId: held.id })).number).toBe(1);
});

it('what was not agreed is asked anew as its next revision, and what was agreed by a quote of its own', async () => {
  const { shop, visit, lotId } = await soldUpTo(api, 8280);
  const first = await ask(shop, visit);
  expect(await ask(shop, visit, '5000')).toMatchObject({
    id: first.id,
    newest: { revision: 2, likely: '5000' },
  });
  await answer(shop, first.id, 2, 'not_now');
  expect(await ask(shop, visit, '2000')).toMatchObject({ id: first.id, newest: { revision: 3 } });
  await answer(shop, first.id, 3, 'go_ahead');
  expect(await agreedOf(shop, visit)).toMatchObject({ agreed: '22000', beyondAuthority: '0' });
  // 1.50 are left of what is agreed: a part at 12.50 is asked for by another.
  expect(await issue(shop, visit, lotId)).toMatchObject({ code: 'BEYOND_AGREED' });
  const second = await ask(shop, visit, '1100');
  expect(second.id).not.toBe(first.id);
  await answer(shop, second.id, 1, 'go_ahead');
  expect((await issue(shop, visit, lotId)).code).toBeUndefined();
});

it('of many who ask at once there is one request', async () => {
  const { shop, visit } = await soldUpTo(api, 8280);
  const asked = await Promise.all(Array.from({ length: 6 }, () => ask(shop, visit)));
  expect(new Set(asked.map(({ id }) => id)).size).toBe(1);
});

it('refuses to ask for nothing, for less than nothing, on what is over, and by whom it does not concern', async () => {
  const { shop, visit } = await soldUpTo(api, 3600);
  expect(await ask(shop, visit)).toMatchObject({ code: 'AGAINST_RULE', field: 'amount' });
  for (const amount of ['-1', '1000000000001'])
    expect(await ask(shop, visit, amount)).toMatchObject({ code: 'BAD_INPUT', field: 'amount' });
  expect(await ask(shop, visit, '1000', 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  const { id } = await ask(shop, visit, '1000');
  const revised = await shop.as<{ done: { code: string } }>(
    'front_desk',
    'mutation($input: ReviseQuoteInput!) { done: reviseQuote(input: $input) { ... on Refusal { code } } }',
    { input: { quoteId: id, fromRevision: 1, tasks: [], parts: [] } },
  );
  expect(revised.data?.done.code).toBe('AGAINST_RULE');
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: { orderId: keyOf('WorkOrder', visit.order, 'id'), kind: 'closed' },
    }),
  );
  expect(await ask(shop, visit, '2000')).toMatchObject({ code: 'AGAINST_RULE' });
});

it('the owner reads how much more on their own page, is told of no firm price, and answers there', async () => {
  const { shop, visit } = await soldUpTo(api, 8280);
  const { id } = await ask(shop, visit);
  await shop.as(
    'front_desk',
    'mutation($input: SendQuoteInput!) { sendQuote(input: $input) { __typename } }',
    { input: { quoteId: id, revision: 1, channel: 'telephone' } },
  );
  const link = await linkTo(shop, { orderId: visit.order });
  const { offers } = await pageAt(api, link);
  const offer = offers.find((each) => each.id === id);
  expect(offer?.words).toMatch(
    /: More for order \d+, Test visit\. On order \d+ up to 200\.00 USD are agreed\. This asks for 18\.50 USD more, before tax, .* Only what is worked and fitted is billed\./,
  );
  expect(offer?.words).not.toContain('firm');
  expect((await answerByLink(api, link, offer!)).status).toBe(303);
  expect(await agreedOf(shop, visit)).toMatchObject({ agreed: '21850', beyondAuthority: '0' });
});
