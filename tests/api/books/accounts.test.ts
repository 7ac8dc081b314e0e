/** Accounts: what everybody owes by age, and the statement that adds up to it. Days and amounts counted by hand. */
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import { bill, draft, makeSold, release } from './billing.ts';

let api: TestApi;
let now = new Date('2031-01-10T09:00:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Account {
  contact: { name: string } | null;
  currency: string;
  ages: Record<'notDue' | 'to30' | 'to60' | 'to90' | 'over90' | 'total', string>;
  held: string;
  toPayBack: string;
  balance: string;
}
const ACCOUNT =
  'contact { name } currency ages { notDue to30 to60 to90 over90 total } held toPayBack balance';

const accounts = async (shop: TestShop) => {
  const { data, errors } = await shop.as<{ accounts: { payers: Account[]; whole: Account[] } }>(
    'front_desk',
    `{ accounts { payers { ${ACCOUNT} } whole { ${ACCOUNT} } } }`,
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.accounts;
};
interface Stated {
  opening: string;
  closing: string;
  entries: { on: string; words: string; amount: string; balance: string }[];
  account: Account;
}
const statement = async (
  shop: TestShop,
  contactId: string,
  dates: { from?: string; until?: string } = {},
) => {
  const { data, errors } = await shop.as<{ node: { statement: Stated } }>(
    'manager',
    `query($id: ID!, $from: Date, $until: Date) { node(id: $id) { ... on Contact { statement(from: $from, until: $until) {
       opening closing entries { on words amount balance } account { ${ACCOUNT} } } } } }`,
    { id: globalId('Contact', contactId), ...dates },
  );
  if (!data?.node) throw new Error(JSON.stringify(errors));
  return data.node.statement;
};

/** An invoice of so many whole dollars without tax, issued now and due on that day. */
async function billed(shop: TestShop, dollars: number, dueOn: string) {
  const visit = await makeSold(shop, {
    lines: [
      {
        title: `Job ${dollars}`,
        pricing: 'fixed',
        likelyMinor: BigInt(dollars * 100),
        unitPrice: `${dollars}`,
      },
    ],
    ceiling: BigInt(dollars * 100),
    items: [{ line: 0, seconds: 0 }],
  });
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  return bill(shop, 'issueInvoice', { invoiceId: id, dueOn });
}

it('what is owed is told by age and by payer, and the statement comes to the same', async () => {
  const shop = await makeShop(api);
  now = new Date('2031-01-10T09:00:00Z');
  const old = await billed(shop, 1000, '2031-01-20');
  const paid = await billed(shop, 300, '2031-01-31');
  now = new Date('2031-03-01T09:00:00Z');
  const young = await billed(shop, 500, '2031-04-10');
  now = new Date('2031-03-02T09:00:00Z');
  await bill(shop, 'recordPayment', { invoiceId: paid.id, amount: '30000', method: 'card' });
  await bill(shop, 'recordPayment', { invoiceId: old.id, amount: '25000', method: 'card' });

  // 20 January to 22 April are 92 days; 10 April to 22 April are 12.
  now = new Date('2031-04-22T09:00:00Z');
  const ages = {
    notDue: '0',
    to30: '50000',
    to60: '0',
    to90: '0',
    over90: '75000',
    total: '125000',
  };
  const { payers, whole } = await accounts(shop);
  expect(payers).toEqual([
    {
      contact: { name: 'Test Owner' },
      currency: 'USD',
      ages,
      held: '0',
      toPayBack: '0',
      balance: '125000',
    },
  ]);
  expect(whole).toEqual([{ ...payers[0], contact: null }]);

  const all = await statement(shop, shop.contactId);
  expect(all.entries.map(({ on, amount, balance }) => [on, amount, balance])).toEqual([
    ['2031-01-10', '100000', '100000'],
    ['2031-01-10', '30000', '130000'],
    ['2031-03-01', '50000', '180000'],
    ['2031-03-02', '-30000', '150000'],
    ['2031-03-02', '-25000', '125000'],
  ]);
  expect(all).toMatchObject({
    opening: '0',
    closing: '125000',
    account: { balance: '125000', ages },
  });
  const march = await statement(shop, shop.contactId, { from: '2031-03-01', until: '2031-03-01' });
  expect(march).toMatchObject({
    opening: '130000',
    closing: '180000',
    entries: [{ words: expect.stringContaining(`Invoice ${young.number}`) }],
  });

  // 250.00 were paid on it: credited whole, they are to be paid back, and stand beside what is owed, not in it.
  await bill(shop, 'creditInvoice', { invoiceId: old.id });
  const [after] = (await accounts(shop)).payers;
  expect(after).toMatchObject({
    ages: { over90: '0', total: '50000' },
    toPayBack: '25000',
    balance: '25000',
  });
  expect((await statement(shop, shop.contactId)).closing).toBe('25000');
  const owed = await shop.as<{ invoices: { edges: { node: { owed: string } }[] } }>(
    'front_desk',
    '{ invoices { edges { node { owed } } } }',
  );
  const each = owed.data?.invoices.edges.map(({ node }) => BigInt(node.owed)) ?? [];
  expect(each.filter((one) => one > 0n).reduce((sum, one) => sum + one, 0n)).toBe(50_000n);
  expect(each.filter((one) => one < 0n).reduce((sum, one) => sum + one, 0n)).toBe(-25_000n);
});

it('a deposit of one payer that is set against the invoice of another moves between their accounts', async () => {
  const shop = await makeShop(api);
  now = new Date('2031-05-02T09:00:00Z');
  const other = await shop.inside((tx) =>
    tx.contact.create({ data: { shopId: shop.shopId, name: 'Flying club' } }),
  );
  const visit = await makeSold(shop, {
    lines: [{ title: 'Job', pricing: 'fixed', likelyMinor: 40_000n, unitPrice: '400' }],
    ceiling: 40_000n,
    items: [{ line: 0, seconds: 0 }],
  });
  const taken = await shop.as(
    'front_desk',
    'mutation($input: TakeDepositInput!) { takeDeposit(input: $input) { __typename } }',
    {
      input: {
        orderId: visit.order,
        contactId: globalId('Contact', other.id),
        amount: '15000',
        method: 'cash',
      },
    },
  );
  expect(taken.data).toEqual({ takeDeposit: { __typename: 'Deposit' } });
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: id });
  expect((await statement(shop, other.id)).closing).toBe('0');
  expect(await statement(shop, shop.contactId)).toMatchObject({
    closing: '25000',
    account: { balance: '25000' },
  });
});

it('is for the front desk and the manager, and refuses days that are out of order', async () => {
  const shop = await makeShop(api);
  for (const role of ['mechanic', 'inspector'] as const)
    expect(
      (await shop.as(role, '{ accounts { whole { balance } } }')).errors?.[0]?.extensions.code,
    ).toBe('FORBIDDEN');
  const answer = await shop.as(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Contact { statement(from: "2031-05-04", until: "2031-05-03") { closing } } } }',
    { id: globalId('Contact', shop.contactId) },
  );
  expect(answer.errors?.[0]).toMatchObject({
    message: expect.stringContaining('from 2031-05-04 to 2031-05-03'),
    extensions: { code: 'BAD_INPUT' },
  });
  expect(await accounts(shop)).toEqual({ payers: [], whole: [] });
  const paper = `statement/${globalId('Contact', shop.contactId)}.pdf`;
  expect(
    await print(api, shop, `${paper}?from=2031-01-01&until=2031-05-01`, 'manager'),
  ).toMatchObject({ status: 200 });
  expect(await print(api, shop, paper, 'mechanic')).toMatchObject({ status: 403 });
  for (const wrong of [
    '?from=2031-02-30',
    '?from=x',
    '?until=1',
    '?from=2031-05-04&until=2031-05-03',
    '?from=2031-01-01&from=2031-01-02',
  ])
    expect(await print(api, shop, `${paper}${wrong}`, 'manager'), wrong).toMatchObject({
      status: 400,
    });
});
