/** Money that goes back after a credit note: recorded once, never more than is to be paid back, and stated. */
import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import { bill, draft, makeSold, release } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const payBack = async (
  shop: TestShop,
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'front_desk',
) => {
  const { data } = await shop.as<{ done: Record<string, unknown> }>(
    role,
    'mutation($input: PayBackInput!) { done: payBack(input: $input) { ... on Invoice { paid owed payments { amount method deposit { id } } } ... on Refusal { code message field } } }',
    { input: { method: 'bank transfer', ...input } },
  );
  return data?.done;
};
const stated = async (shop: TestShop) => {
  const { data } = await shop.as<{
    node: {
      statement: {
        closing: string;
        payBackOn: { id: string; owed: string }[];
        account: { toPayBack: string; balance: string };
        entries: { words: string; amount: string }[];
      };
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Contact { statement { closing payBackOn { id owed } account { toPayBack balance } entries { words amount } } } } }',
    { id: globalId('Contact', shop.contactId) },
  );
  if (!data) throw new Error('no statement');
  return data.node.statement;
};

it('goes back after a credit note, in parts, once each, and the account closes at nothing', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [
      {
        ...{ title: '100-hour inspection', pricing: 'fixed', unitPrice: '1240', taxRate: '4' },
        likelyMinor: 124_000n,
      },
    ],
    ...{ ceiling: 140_000n, items: [{ line: 0, seconds: 3600 }] },
  });
  await release(shop, visit);
  const { id: invoiceId } = await draft(shop, visit);
  expect(await payBack(shop, { invoiceId, amount: '100' })).toMatchObject({
    ...{ code: 'AGAINST_RULE', field: 'amount' },
    message:
      'Paying back 1.00 USD on a draft was refused: needed is more than 0 and at most what is to be paid back, 0.00 USD.',
  });
  const { number } = await bill(shop, 'issueInvoice', { invoiceId });
  await bill(shop, 'recordPayment', { invoiceId, amount: '128960', method: 'card' });
  expect(await payBack(shop, { invoiceId, amount: '100' })).toMatchObject({ code: 'AGAINST_RULE' });
  await bill(shop, 'creditInvoice', { invoiceId });
  expect(await stated(shop)).toMatchObject({
    ...{ closing: '-128960', payBackOn: [{ id: invoiceId, owed: '-128960' }] },
    account: { toPayBack: '128960', balance: '-128960' },
  });
  for (const [amount, code] of [
    ['128961', 'AGAINST_RULE'],
    ['0', 'BAD_INPUT'],
    ['-5', 'BAD_INPUT'],
  ])
    expect(await payBack(shop, { invoiceId, amount })).toMatchObject({ code, field: 'amount' });
  const clientEventId = randomUUID();
  const some = { invoiceId, amount: '28960', clientEventId };
  const first = await payBack(shop, some);
  expect(first).toMatchObject({
    ...{ paid: '100000', owed: '-100000' },
    payments: [{ amount: '128960' }, { amount: '-28960', method: 'bank transfer', deposit: null }],
  });
  expect(await payBack(shop, some)).toEqual(first);
  // Two at one moment: the second finds that nothing is left.
  const both = await Promise.all([1, 2].map(() => payBack(shop, { invoiceId, amount: '100000' })));
  expect(both.filter((each) => each?.['code'] === 'AGAINST_RULE')).toHaveLength(1);
  const after = await stated(shop);
  expect(after).toMatchObject({ closing: '0', payBackOn: [], account: { toPayBack: '0' } });
  expect(after.entries.slice(-2).map(({ words, amount }) => [words, amount])).toEqual([
    [`Paid back on invoice ${number}, bank transfer`, '28960'],
    [`Paid back on invoice ${number}, bank transfer`, '100000'],
  ]);
  const csv = await print(
    api,
    shop,
    'books/payments.csv?from=2025-01-01&until=2030-01-01',
    'manager',
  );
  expect(csv.bytes.toString().match(/paid back/g)).toHaveLength(2);
  expect(await payBack(shop, { invoiceId, amount: '1' }, 'mechanic')).toMatchObject({
    code: 'FORBIDDEN',
  });
  expect(
    await payBack(shop, { invoiceId, amount: '1', paidAt: '2099-01-01T00:00:00Z' }),
  ).toMatchObject({ code: 'BAD_INPUT', field: 'paidAt' });
});
