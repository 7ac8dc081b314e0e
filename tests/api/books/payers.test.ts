/** Warranty and insurers pay parts of an order: an invoice for each payer, together the whole to the cent (EN 16931, BR-CO-16, BR-CO-17). Who pays what is common practice, no source. */
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { keepsTheRules, text } from '../../support/e-invoice-rules.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print, words } from '../paper/printed.ts';
import { type Billed, bill, draft, INVOICE, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id?: string;
  code?: string;
  message?: string;
}
const said = async (shop: TestShop, role: Role, mutation: string, type: string, input: object) => {
  const { data, errors } = await shop.as<{ done: Said }>(
    role,
    `mutation($input: ${mutation[0]?.toUpperCase()}${mutation.slice(1)}Input!) { done: ${mutation}(input: $input) { ... on ${type} { id } ... on Refusal { code message } } }`,
    { input },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
const contact = async (shop: TestShop, name: string) =>
  (await said(shop, 'front_desk', 'addContact', 'Contact', { name })).id ?? '';
const share = (shop: TestShop, input: object, role: Role = 'front_desk') =>
  said(shop, role, 'addPayerShare', 'PayerShare', { kind: 'insurer', ...input });

type OfOrder = Billed & {
  rounding: string;
  contact: { name: string };
  payerShare: { id: string } | null;
};
const invoicesOf = async (shop: TestShop, order: string) => {
  const { data } = await shop.as<{ node: { invoices: OfOrder[] } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on WorkOrder { invoices { ${INVOICE} rounding contact { name } payerShare { id } } } } }`,
    { id: order },
  );
  return data?.node.invoices ?? [];
};
const sum = (amounts: string[]) => amounts.reduce((all, each) => all + BigInt(each), 0n);

/** An hour at 95.00, taxed at 7 %, with two gaskets of 12.345 that nobody quoted; and a flat price of 400.00 at 4 %. */
async function sold() {
  const address = { addressLine1: 'Hangar 2', city: 'Ebbsay', country: 'US' };
  const shop = await makeShop(api, { ...address, taxNumber: 'T-1', registrationNumber: 'R-1' });
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Dents taken out', likelyMinor: 9_500n, taxRate: '7' },
      {
        title: 'Inspection',
        pricing: 'fixed',
        likelyMinor: 40_000n,
        unitPrice: '400',
        taxRate: '4',
      },
    ],
    ceiling: 80_000n,
    items: [
      { line: 0, title: 'Dents taken out', seconds: 3600 },
      { line: 1, title: 'Inspection', seconds: 3600 },
    ],
  });
  await issueTo(shop, visit.itemIds[0] ?? '', { unitPrice: '12.345' });
  return { shop, visit, address };
}

it('bills each payer their part, with gapless numbers, and all of them to what one invoice would come to', async () => {
  const { shop, visit, address } = await sold();
  const one = await draft(shop, visit);
  const insurer = await contact(shop, 'Strand Hull Cover');
  const maker = await contact(shop, 'Testmaker Works');
  await shop.inside((tx) => tx.contact.updateMany({ data: address }));
  await share(shop, {
    orderId: visit.order,
    contactId: insurer,
    take: 'whole',
    itemIds: [visit.items[0]],
    deductible: '5000',
    reference: 'Claim 81',
  });
  await share(shop, {
    orderId: visit.order,
    contactId: maker,
    kind: 'warranty',
    take: 'percent',
    percent: '33.3',
  });

  const customer = await draft(shop, visit);
  // The draft that was there is the customer's now.
  expect(customer.id).toBe(one.id);
  // 95.00 + 24.69 less 50.00: the insurer pays 69.69. Of 519.69, 33.3 % are 173.06, of what is left: 50.00 and 400.00.
  expect(customer.net).toBe(`${51_969n - 6_969n - 17_306n}`);
  const drafts = await invoicesOf(shop, visit.order);
  expect(drafts.map(({ contact: { name }, net }) => [name, net])).toEqual(
    expect.arrayContaining([
      ['Test Owner', customer.net],
      ['Strand Hull Cover', '6969'],
      ['Testmaker Works', '17306'],
    ]),
  );
  expect(sum(drafts.map(({ net }) => net))).toBe(BigInt(one.net));
  expect(sum(drafts.map(({ gross }) => gross))).toBe(BigInt(one.gross));
  for (const { net, tax, rounding, gross, lines } of drafts) {
    expect(BigInt(net) + BigInt(tax) + BigInt(rounding)).toBe(BigInt(gross));
    expect(sum(lines.map((line) => line.net))).toBe(BigInt(net));
  }
  // The customer sees every line, and who pays the rest.
  expect(customer.lines.map(({ title, unit, net }) => [title, unit, net])).toEqual([
    ...one.lines.map(({ title, unit, net }) => [title, unit, net]),
    ['Paid by Strand Hull Cover, Claim 81', 'taken over', '-6969'],
    [
      expect.stringContaining('Paid by Testmaker Works: of what is taxed S 7 %'),
      'taken over',
      expect.any(String),
    ],
    [
      expect.stringContaining('Paid by Testmaker Works: of what is taxed S 4 %'),
      'taken over',
      expect.any(String),
    ],
  ]);
  expect(customer.difference.filter(({ kind }) => kind === 'taken_over')).toHaveLength(3);
  expect(BigInt(customer.quoted ?? 0) + sum(customer.difference.map(({ amount }) => amount))).toBe(
    BigInt(customer.net),
  );
  const insurers = drafts.find(({ contact: { name } }) => name === 'Strand Hull Cover');
  expect(insurers).toMatchObject({ quoted: null, difference: [], beyond: '0' });

  await release(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: insurers?.id });
  const issued = await invoicesOf(shop, visit.order);
  expect(issued.map(({ number }) => number).sort()).toEqual([1, 2, 3]);
  expect(issued.every(({ state }) => state === 'issued')).toBe(true);
  expect(sum(issued.map(({ owed }) => owed))).toBe(BigInt(one.gross));
  for (const { id, gross, rounding } of issued) {
    const xml = await print(api, shop, `invoice/${id}.xml`, 'front_desk');
    const root = keepsTheRules(xml.bytes.toString());
    const due = BigInt(text(root, 'LegalMonetaryTotal/PayableAmount').replace('.', ''));
    expect(due).toBe(BigInt(gross));
    if (rounding !== '0')
      expect(BigInt(text(root, 'LegalMonetaryTotal/PayableRoundingAmount').replace('.', ''))).toBe(
        BigInt(rounding),
      );
  }
  const paper = await words(
    (await print(api, shop, `invoice/${customer.id}.pdf`, 'front_desk')).bytes,
  );
  expect(paper).toContain('Paid by Strand Hull Cover, Claim 81');
  const theirs = await words(
    (await print(api, shop, `invoice/${insurers?.id}.pdf`, 'front_desk')).bytes,
  );
  expect(theirs).toContain('Claim 81. The rest is billed to others.');

  // While the invoices stand nothing of it changes; credited one by one, the order is billed again.
  expect(
    await share(shop, { orderId: visit.order, contactId: maker, take: 'whole' }),
  ).toMatchObject({ code: 'CONFLICT', message: expect.stringContaining('invoice 1 and 2 and 3') });
  for (const { id } of issued) await bill(shop, 'creditInvoice', { invoiceId: id });
  const notes = (await invoicesOf(shop, visit.order)).filter(({ gross }) => BigInt(gross) < 0n);
  expect(sum(notes.map(({ gross }) => gross))).toBe(-BigInt(one.gross));
  expect(await draft(shop, visit)).toMatchObject({ state: 'draft', net: customer.net });
});

it('puts the cent that taxes rounded apart add up to on the customer’s invoice, where one invoice would have it', async () => {
  const shop = await makeShop(api);
  // 1.00 at 7 %: 0.07; in two halves 0.035 each, half up 0.04 and 0.04.
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Placard', pricing: 'fixed', likelyMinor: 100n, unitPrice: '1', taxRate: '7' },
    ],
    ceiling: 1_000n,
    items: [{ line: 0, seconds: 60 }],
  });
  const contactId = await contact(shop, 'Testmaker Works');
  await share(shop, { orderId: visit.order, contactId, take: 'percent', percent: '50' });
  await draft(shop, visit);
  const drafts = await invoicesOf(shop, visit.order);
  expect(
    drafts.map(({ tax, rounding, gross, payerShare }) => [
      payerShare !== null,
      tax,
      rounding,
      gross,
    ]),
  ).toEqual(
    expect.arrayContaining([
      [false, '4', '-1', '53'],
      [true, '4', '0', '54'],
    ]),
  );
  const paper = await words(
    (
      await print(
        api,
        shop,
        `invoice/${drafts.find(({ rounding }) => rounding === '-1')?.id}.pdf`,
        'front_desk',
      )
    ).bytes,
  );
  expect(paper).toContain('Rounding between the payers');
});

it('takes a payer away again, with their draft, and sets a deposit against the customer’s invoice alone', async () => {
  const { shop, visit } = await sold();
  const insurer = await contact(shop, 'Strand Hull Cover');
  const { id: shareId } = await share(shop, {
    orderId: visit.order,
    contactId: insurer,
    take: 'sum',
    amount: '20000',
  });
  await draft(shop, visit);
  expect(await invoicesOf(shop, visit.order)).toHaveLength(2);
  expect(
    await said(shop, 'front_desk', 'endPayerShare', 'PayerShare', {
      shareId,
      reason: 'Refused the claim.',
    }),
  ).toEqual({ id: shareId });
  // The drafts are of before: they are drafted again before they are issued.
  await release(shop, visit);
  const [first] = await invoicesOf(shop, visit.order);
  expect(await bill(shop, 'issueInvoice', { invoiceId: first?.id })).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('draft it again'),
  });
  const whole = await draft(shop, visit);
  expect(await invoicesOf(shop, visit.order)).toHaveLength(1);
  expect(whole.net).toBe('51969');
  await share(shop, { orderId: visit.order, contactId: insurer, take: 'sum', amount: '20000' });
  const customer = await draft(shop, visit);
  await said(shop, 'front_desk', 'takeDeposit', 'Deposit', {
    orderId: visit.order,
    contactId: globalId('Contact', shop.contactId),
    amount: '100000',
    method: 'card',
  });
  await bill(shop, 'issueInvoice', { invoiceId: customer.id });
  const issued = await invoicesOf(shop, visit.order);
  expect(issued.map(({ payerShare, owed }) => [payerShare !== null, owed]).sort()).toEqual([
    [false, '0'],
    [true, issued.find(({ payerShare }) => payerShare)?.gross],
  ]);
});

it('refuses a share that says no amount or two, more than all, nobody’s items, and whom it does not concern', async () => {
  const { shop, visit } = await sold();
  const contactId = await contact(shop, 'Strand Hull Cover');
  const asked = { orderId: visit.order, contactId };
  expect(await share(shop, { ...asked, take: 'percent' })).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('a per cent and no amount'),
  });
  expect(await share(shop, { ...asked, take: 'whole', amount: '1' })).toMatchObject({
    message: expect.stringContaining('neither a per cent nor an amount'),
  });
  expect(await share(shop, { ...asked, take: 'percent', percent: '100.5' })).toMatchObject({
    message: expect.stringContaining('more than 0 to 100'),
  });
  expect(await share(shop, { ...asked, take: 'sum', amount: '0' })).toMatchObject({
    message: 'A share of 0.00 USD was refused: needed is more than 0.',
  });
  expect(await share(shop, { ...asked, take: 'whole', deductible: '-1' })).toMatchObject({
    code: 'BAD_INPUT',
  });
  const other = await sold();
  expect(
    await share(shop, { ...asked, take: 'whole', itemIds: [other.visit.items[0]] }),
  ).toMatchObject({ code: 'NOT_FOUND' });
  expect(
    await share(shop, {
      ...asked,
      contactId: globalId('Contact', other.shop.contactId),
      take: 'whole',
    }),
  ).toMatchObject({ code: 'NOT_FOUND' });
  expect(await share(shop, { ...asked, take: 'whole' }, 'mechanic')).toMatchObject({
    code: 'FORBIDDEN',
  });
  expect(
    await said(shop, 'front_desk', 'addContact', 'Contact', { name: ' strand hull cover ' }),
  ).toMatchObject({ code: 'CONFLICT' });
  expect(await said(shop, 'front_desk', 'addContact', 'Contact', { name: ' ' })).toMatchObject({
    code: 'BAD_INPUT',
  });
  expect(await shop.inside((tx) => tx.payerShare.count())).toBe(0);
});
