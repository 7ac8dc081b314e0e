/** Deposits: taken before an invoice, set against it as paid (EN 16931, BT-113), freed by a credit note, paid back; never counted twice. */
import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { keepsTheRules, text } from '../../support/e-invoice-rules.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import { bill, draft, makeSold, release, type SoldVisit } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Deposit {
  id: string;
  number: number;
  left: string;
  setAgainst: { amount: string; invoice: { number: number } }[];
  refunds: { amount: string }[];
  code?: string;
  message?: string;
  field?: string;
}
const DEPOSIT = 'id number left setAgainst { amount invoice { number } } refunds { amount }';

const mutate = async (
  shop: TestShop,
  name: 'takeDeposit' | 'refundDeposit',
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'front_desk',
): Promise<Deposit> => {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Deposit }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Deposit { ${DEPOSIT} } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
};
const take = (shop: TestShop, { order }: SoldVisit, amount: string, over = {}) =>
  mutate(shop, 'takeDeposit', {
    orderId: order,
    contactId: globalId('Contact', shop.contactId),
    amount,
    method: 'card',
    ...over,
  });
const ofOrder = async (shop: TestShop, { order }: SoldVisit) => {
  const { data } = await shop.as<{
    node: { depositsLeft: string; unpaid: string; deposits: Deposit[] };
  }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on WorkOrder { depositsLeft unpaid deposits { ${DEPOSIT} } } } }`,
    { id: order },
  );
  if (!data) throw new Error('no order');
  return data.node;
};
const balanceOf = async (shop: TestShop) => {
  const { data, errors } = await shop.as<{
    node: {
      statement: {
        closing: string;
        account: { balance: string; held: string; toPayBack: string; ages: { total: string } };
      };
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Contact { statement { closing account { balance held toPayBack ages { total } } } } } }',
    { id: globalId('Contact', shop.contactId) },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.statement;
};

/** A flat price of 1,240.00 with 4 % tax: 1,289.60 in all. */
async function sold(over: Parameters<typeof makeShop>[1] = {}) {
  const shop = await makeShop(api, over);
  const visit = await makeSold(shop, {
    lines: [
      {
        title: '100-hour inspection',
        pricing: 'fixed',
        likelyMinor: 124_000n,
        unitPrice: '1240',
        taxRate: '4',
      },
    ],
    ceiling: 140_000n,
    items: [{ line: 0, seconds: 3600 }],
  });
  return { shop, visit };
}

it('is taken before an invoice, set against it at issue, freed when that is credited, and set against the next; the rest goes back', async () => {
  const address = { addressLine1: 'Hangar 2', city: 'Ebbsay', country: 'US' };
  const { shop, visit } = await sold({ ...address, taxNumber: 'T-1', registrationNumber: 'R-1' });
  await shop.inside((tx) => tx.contact.updateMany({ data: address }));
  const first = await take(shop, visit, '50000');
  const second = await take(shop, visit, '100000', { method: 'bank transfer' });
  expect([first.number, second.number, second.left]).toEqual([1, 2, '100000']);
  expect(await ofOrder(shop, visit)).toMatchObject({ depositsLeft: '150000', unpaid: '0' });
  // Nothing is owed yet, so the payer has 1,500.00 with the shop.
  expect(await balanceOf(shop)).toEqual({
    closing: '-150000',
    account: { balance: '-150000', held: '150000', toPayBack: '0', ages: { total: '0' } },
  });

  await release(shop, visit);
  const { id } = await draft(shop, visit);
  const issued = await bill(shop, 'issueInvoice', { invoiceId: id });
  // 1,289.60: 500.00 of the first and 789.60 of the second; 210.40 are left.
  expect(issued).toMatchObject({ gross: '128960', paid: '128960', owed: '0' });
  const set = await ofOrder(shop, visit);
  expect(set.deposits.map(({ left }) => left)).toEqual(['0', '21040']);
  expect(set.deposits[1]?.setAgainst).toEqual([
    { amount: '78960', invoice: { number: issued.number } },
  ]);
  expect(await balanceOf(shop)).toMatchObject({
    closing: '-21040',
    account: { held: '21040', balance: '-21040' },
  });
  const xml = await print(api, shop, `invoice/${id}.xml`, 'front_desk');
  const root = keepsTheRules(xml.bytes.toString());
  expect(text(root, 'LegalMonetaryTotal/PrepaidAmount')).toBe('1289.60');
  expect(text(root, 'LegalMonetaryTotal/PayableAmount')).toBe('0.00');
  // Issued again, it answers with what was issued and takes nothing more.
  await bill(shop, 'issueInvoice', { invoiceId: id });
  expect((await ofOrder(shop, visit)).depositsLeft).toBe('21040');
  expect(await take(shop, visit, '100')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('billed already'),
  });

  await bill(shop, 'creditInvoice', { invoiceId: id });
  await bill(shop, 'creditInvoice', { invoiceId: id });
  expect(await ofOrder(shop, visit)).toMatchObject({ depositsLeft: '150000', unpaid: '0' });
  expect(await balanceOf(shop)).toMatchObject({
    closing: '-150000',
    account: { held: '150000', toPayBack: '0' },
  });

  const next = await draft(shop, visit);
  expect(await bill(shop, 'issueInvoice', { invoiceId: next.id })).toMatchObject({
    owed: '0',
    paid: '128960',
  });
  const back = (amount: string, over = {}) =>
    mutate(shop, 'refundDeposit', {
      depositId: second.id,
      amount,
      method: 'bank transfer',
      ...over,
    });
  expect(await back('21041')).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('210.40 USD'),
  });
  const clientEventId = randomUUID();
  expect(await back('21040', { clientEventId })).toMatchObject({
    left: '0',
    refunds: [{ amount: '21040' }],
  });
  // Sent again after an answer that was lost, it is the same one.
  expect(await back('21040', { clientEventId })).toMatchObject({
    left: '0',
    refunds: [{ amount: '21040' }],
  });
  expect(await balanceOf(shop)).toMatchObject({
    closing: '0',
    account: { balance: '0', held: '0' },
  });
});

it('an invoice that costs more leaves the rest owed, and takes no payment past that', async () => {
  const { shop, visit } = await sold();
  const [clientEventId, paidAt] = [randomUUID(), new Date(Date.now() - 60_000).toISOString()];
  const taken = await take(shop, visit, '100000', { clientEventId, paidAt });
  expect((await take(shop, visit, '100000', { clientEventId, paidAt })).id).toBe(taken.id);
  expect(await take(shop, visit, '100000', { paidAt })).toMatchObject({ code: 'CONFLICT' });
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  expect(await bill(shop, 'issueInvoice', { invoiceId: id })).toMatchObject({
    paid: '100000',
    owed: '28960',
  });
  const pay = (amount: string) =>
    bill(shop, 'recordPayment', { invoiceId: id, amount, method: 'card' });
  expect(await pay('28961')).toMatchObject({ code: 'AGAINST_RULE' });
  expect(await pay('28960')).toMatchObject({ owed: '0' });
  expect(await balanceOf(shop)).toMatchObject({ closing: '0' });
});

it('refuses what is no money, no time, and nobody’s to take', async () => {
  const { shop, visit } = await sold();
  for (const amount of ['0', '-1'])
    expect(await take(shop, visit, amount)).toMatchObject({ code: 'BAD_INPUT', field: 'amount' });
  const ahead = new Date(Date.now() + 3_600_000).toISOString();
  expect(await take(shop, visit, '1', { paidAt: ahead })).toMatchObject({ field: 'paidAt' });
  expect(await take(shop, visit, '1', { method: ' ' })).toMatchObject({ field: 'method' });
  expect(
    await take(shop, visit, '1', { contactId: globalId('Contact', randomUUID()) }),
  ).toMatchObject({ code: 'NOT_FOUND' });
  const input = {
    orderId: visit.order,
    contactId: globalId('Contact', shop.contactId),
    amount: '1',
    method: 'cash',
  };
  expect(await mutate(shop, 'takeDeposit', input, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  const other = await makeShop(api);
  expect(await mutate(other, 'takeDeposit', input)).toMatchObject({ code: 'NOT_FOUND' });
});

it('two at once who want the same rest back: one has it', async () => {
  const { shop, visit } = await sold();
  const { id } = await take(shop, visit, '30000');
  const input = { depositId: id, amount: '20000', method: 'cash' };
  const answers = await Promise.all([1, 2, 3].map(() => mutate(shop, 'refundDeposit', input)));
  expect(answers.filter(({ code }) => code === 'AGAINST_RULE')).toHaveLength(2);
  expect((await ofOrder(shop, visit)).depositsLeft).toBe('10000');
});

it('the database itself lets no deposit be used past what it holds, nor for another order', async () => {
  const { shop, visit } = await sold();
  const { id } = await take(shop, visit, '10000');
  const depositId = (await shop.inside((tx) => tx.deposit.findFirstOrThrow())).id;
  expect(id).toBe(globalId('Deposit', depositId));
  await release(shop, visit);
  const made = await draft(shop, visit);
  const invoiceId = (await shop.inside((tx) => tx.invoice.findFirstOrThrow())).id;
  const pay = (amountMinor: bigint) =>
    shop.inside((tx) =>
      tx.payment.create({
        data: { invoiceId, depositId, amountMinor, method: 'x', paidAt: new Date() },
      }),
    );
  await expect(pay(10_001n)).rejects.toThrow(/holds 10000/);
  await expect(pay(-1n)).rejects.toThrow(/holds 10000/);
  const elsewhere = await makeSold(shop, {
    lines: [{ title: 'Other', pricing: 'fixed', likelyMinor: 1000n, unitPrice: '10' }],
    ceiling: 1000n,
    items: [{ line: 0, seconds: 0 }],
  });
  await draft(shop, elsewhere);
  const other = await shop.inside((tx) =>
    tx.invoice.findFirstOrThrow({ where: { orderId: elsewhere.orderId } }),
  );
  await expect(
    shop.inside((tx) =>
      tx.payment.create({
        data: { invoiceId: other.id, depositId, amountMinor: 1n, method: 'x', paidAt: new Date() },
      }),
    ),
  ).rejects.toThrow(/another order/);
  expect(made.number).toBeNull();
});
