/** Core charges: on the quote, on the bill as far as they are owed, and back by a credit note. Common practice, no source. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { keepsTheRules, text } from '../../support/e-invoice-rules.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import {
  draft as draftQuote,
  forOwner,
  gid,
  makeTasks,
  quoted,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { bill, draft, issueTo, type Line, makeSold, release, type SoldVisit } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const CHARGE = 25_000n;

/** A visit whose starter is exchanged: quoted with its core, issued, its work done in an hour. */
async function exchanged(shop: TestShop, { quantity = '1', ceiling = 200_000n } = {}) {
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: {
        ...{ shopId: shop.shopId, number: 'ST-9', title: 'Starter', unitPrice: '400' },
        coreChargeMinor: CHARGE,
      },
    }),
  );
  const parts = { category: 'parts', taxRate: '7', quantity } as const;
  const lines: Line[] = [
    { title: 'Change the starter', likelyMinor: 9500n },
    {
      ...{ ...parts, title: 'Starter', partId: part.id, unitPrice: '400' },
      likelyMinor: 40_000n * BigInt(quantity),
    },
    {
      ...{ ...parts, title: 'Core of Starter', corePartId: part.id, charge: 'core' },
      ...{ pricing: 'fixed', unitPrice: '250', likelyMinor: CHARGE * BigInt(quantity) },
    },
  ];
  const sold = await makeSold(shop, {
    ...{ lines, ceiling },
    items: [{ title: 'Change the starter', line: 0, seconds: 3600 }],
  });
  const itemId = sold.itemIds[0] ?? '';
  const { lotId } = await issueTo(shop, itemId, { partId: part.id, quantity, coreCharge: CHARGE });
  return { ...sold, itemId, lotId, partId: part.id };
}

const cameBack = (
  shop: TestShop,
  { itemId, lotId }: { itemId: string; lotId: string },
  quantity = '1',
) =>
  shop.inside((tx) =>
    tx.coreEvent.create({
      data: { ...{ lotId, itemId, quantity, kind: 'came_back' }, byId: shop.people.mechanic.id },
    }),
  );

async function credit(shop: TestShop, invoiceId: string, clientEventId?: string) {
  const { data } = await shop.as<{ done: { id?: string; code?: string } }>(
    'front_desk',
    `mutation($input: CreditCoresInput!) { done: creditCores(input: $input) { ... on Invoice { id number inPart net tax gross
      lines { title quantity unit unitPrice net core } } ... on Refusal { code message field } } }`,
    { input: { invoiceId, clientEventId } },
  );
  return data?.done ?? {};
}

async function look(shop: TestShop, id: string) {
  const { data } = await shop.as<{
    node: {
      state: string;
      owed: string;
      coresToCredit: { quantity: string; amount: string; line: { title: string } }[];
      difference: { kind: string; title: string; amount: string }[];
      differenceEvidence: { sentences: string[] }[];
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Invoice { state owed coresToCredit { quantity amount line { title } } difference { kind title amount } differenceEvidence { sentences } } } }',
    { id },
  );
  if (!data) throw new Error('no invoice');
  return data.node;
}

async function issued(shop: TestShop, visit: SoldVisit) {
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  return bill(shop, 'issueInvoice', { invoiceId: id });
}

const costSoFar = async (shop: TestShop, { order }: SoldVisit) => {
  const { data } = await shop.as<{ node: { costSoFar: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar } } }',
    { id: order },
  );
  return data?.node.costSoFar;
};

it('a part with a core is quoted with its charge below it, and nobody names a core as a charge', async () => {
  const shop = await makeShop(api);
  const tasks = tasksOf(await makeTasks(shop, 1));
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: {
        ...{ shopId: shop.shopId, number: 'ST-9', title: 'Starter', unitPrice: '400' },
        coreChargeMinor: CHARGE,
      },
    }),
  );
  const wanted = {
    ...forOwner(shop),
    tasks,
    parts: [{ partId: gid('Part', part.id), quantity: '2' }],
  };
  const { newest } = quoted(await draftQuote(shop, wanted));
  expect(
    newest.lines
      .slice(1)
      .map(({ title, pricing, quantity, unitPrice, likely, category }) => [
        ...[title, pricing, quantity, unitPrice, likely, category],
      ]),
  ).toEqual([
    ['Starter', 'time_and_materials', '2', '400', '80000', 'parts'],
    [
      'Core of Starter: charged until the old one comes back',
      'fixed',
      '2',
      '250',
      '50000',
      'parts',
    ],
  ]);
  // It is taxed as its part: 7 % of 800.00 and 500.00.
  expect(newest.tax).toBe('9100');
  const named = await draftQuote(shop, { ...wanted, charges: [{ kind: 'core', price: '100' }] });
  expect(named).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('A core is charged with its part'),
  });
});

it('a core that came back before the bill is not billed, and the bill says why', async () => {
  const shop = await makeShop(api);
  const visit = await exchanged(shop);
  expect(await costSoFar(shop, visit)).toBe('74500');
  await cameBack(shop, visit);
  expect(await costSoFar(shop, visit)).toBe('49500');
  const invoice = await draft(shop, visit);
  expect(invoice.lines.map(({ title, net }) => [title, net])).toEqual([
    ['Change the starter', '9500'],
    ['Starter', '40000'],
  ]);
  const { difference, differenceEvidence } = await look(shop, invoice.id);
  const at = difference.findIndex(({ title }) => title.startsWith('Core of Starter'));
  expect(difference[at]).toMatchObject({ kind: 'parts', amount: '-25000' });
  expect(differenceEvidence[at]?.sentences.join(' ')).toContain('1 old Starter came back');
});

it('a core that came after the bill is given back by a credit note, once, and the invoice stands', async () => {
  const shop = await makeShop(api);
  const visit = await exchanged(shop, { quantity: '2' });
  const invoice = await issued(shop, visit);
  expect(invoice.lines.map(({ title, quantity, net }) => [title, quantity, net])).toEqual([
    ['Change the starter', '1.0', '9500'],
    ['Starter', '2', '80000'],
    ['Core of Starter: charged until the old one comes back', '2', '50000'],
  ]);
  expect(await costSoFar(shop, visit)).toBe(invoice.net);
  expect(await credit(shop, invoice.id)).toMatchObject({
    code: 'AGAINST_RULE',
    message: `On invoice ${invoice.number} there is no core to give back: needed is an old part that came after it was billed and is not credited yet.`,
  });
  await cameBack(shop, visit);
  expect((await look(shop, invoice.id)).coresToCredit).toEqual([
    {
      ...{ quantity: '1', amount: '25000' },
      line: { title: 'Core of Starter: charged until the old one comes back' },
    },
  ]);
  const { data } = await shop.as<{ invoicesToCredit: { id: string }[] }>(
    'manager',
    '{ invoicesToCredit { id } }',
  );
  expect(data?.invoicesToCredit).toEqual([{ id: invoice.id }]);
  const key = crypto.randomUUID();
  const note = await credit(shop, invoice.id, key);
  expect(note).toMatchObject({
    ...{ inPart: true, net: '-25000', tax: '-1750', gross: '-26750' },
    lines: [
      {
        ...{ title: 'Core of Starter: the old one came back', quantity: '-1', unit: 'each' },
        ...{ unitPrice: '250', net: '-25000', core: true },
      },
    ],
  });
  expect(await credit(shop, invoice.id, key)).toMatchObject({ id: note.id });
  expect(await credit(shop, invoice.id)).toMatchObject({ code: 'AGAINST_RULE' });
  const after = await look(shop, invoice.id);
  expect(after).toMatchObject({ state: 'issued', coresToCredit: [] });
  expect(after.owed).toBe(`${BigInt(invoice.gross) - 26_750n}`);
  // Billed still: nothing else can be drafted, and the note itself cannot be credited.
  expect(await draft(shop, visit)).toMatchObject({ code: 'CONFLICT' });
  expect(await bill(shop, 'creditInvoice', { invoiceId: note.id })).toMatchObject({
    code: 'AGAINST_RULE',
  });
  // Taken back whole after that: what was given back before is not given back twice.
  const whole = await bill(shop, 'creditInvoice', { invoiceId: invoice.id });
  expect(BigInt(whole.gross)).toBe(-(BigInt(invoice.gross) - 26_750n));
  expect(await look(shop, invoice.id)).toMatchObject({ state: 'credited', owed: '0' });
  const again = await draft(shop, visit);
  expect(again.lines.find(({ title }) => title.startsWith('Core'))).toMatchObject({
    ...{ quantity: '1', net: '25000' },
  });
});

it('taken back whole after a core was, it comes to exactly what remains, and its e-invoice adds up', async () => {
  const at = { addressLine1: 'Hangar 2', city: 'Ebbsay', country: 'US' };
  const shop = await makeShop(api, { ...at, taxNumber: 'T-1', registrationNumber: 'R-1' });
  await shop.inside((tx) => tx.contact.updateMany({ data: at }));
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'W-1', title: 'Washer', unitPrice: '0.5' },
    }),
  );
  const visit = await makeSold(shop, {
    lines: [{ title: 'Change the washer', likelyMinor: 9500n, taxRate: '4' }],
    ceiling: 60_000n,
    items: [{ title: 'Change the washer', line: 0, seconds: 3600 }],
  });
  const itemId = visit.itemIds[0] ?? '';
  const { lotId } = await issueTo(shop, itemId, {
    partId: part.id,
    quantity: '1',
    coreCharge: 50n,
  });
  const invoice = await issued(shop, visit);
  await cameBack(shop, { itemId, lotId });
  // 7 % of 1.00 is 0.07; of the 0.50 given back it is 0.04, and so it is of the 0.50 that remain.
  expect(await credit(shop, invoice.id)).toMatchObject({ net: '-50', tax: '-4', gross: '-54' });
  const whole = await bill(shop, 'creditInvoice', { invoiceId: invoice.id });
  expect(whole).toMatchObject({ net: '-9550', tax: '-384', gross: '-9933' });
  expect(BigInt(whole.gross)).toBe(-(BigInt(invoice.gross) - 54n));
  expect(await look(shop, invoice.id)).toMatchObject({ state: 'credited', owed: '0' });
  const paper = await print(api, shop, `invoice/${whole.id}.xml`);
  expect(paper.status).toBe(200);
  const root = keepsTheRules(paper.bytes.toString());
  expect(text(root, 'LegalMonetaryTotal/PayableRoundingAmount')).toBe('-0.01');
});

it('a core is given back no further than it was billed, and mechanics neither see nor give it', async () => {
  const shop = await makeShop(api);
  // Agreed are 700.00: the hour and 300.00 more are held back of 1,395.00, the cores last of all.
  const visit = await exchanged(shop, { quantity: '2', ceiling: 30_000n });
  const invoice = await issued(shop, visit);
  expect(invoice.net).toBe('30000');
  await cameBack(shop, visit, '2');
  // 300.00 of the 500.00 were billed.
  expect((await look(shop, invoice.id)).coresToCredit).toMatchObject([
    { quantity: '2', amount: '30000' },
  ]);
  expect(await credit(shop, invoice.id)).toMatchObject({
    net: '-30000',
    lines: [{ quantity: '-1', unitPrice: '300' }],
  });
  const { data } = await shop.as<{ done: { code: string } }>(
    'mechanic',
    'mutation($input: CreditCoresInput!) { done: creditCores(input: $input) { ... on Refusal { code } } }',
    { input: { invoiceId: invoice.id } },
  );
  expect(data?.done.code).toBe('FORBIDDEN');
});

it('a core that nobody quoted is billed as far as the owner agreed, beside a price not to be exceeded', async () => {
  const shop = await makeShop(api);
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'AL-1', title: 'Alternator', unitPrice: '100' },
    }),
  );
  const visit = await makeSold(shop, {
    lines: [
      {
        ...{ title: 'Charging fault', likelyMinor: 9500n, limitMinor: 15_000n },
        pricing: 'not_to_exceed',
      },
    ],
    ceiling: 60_000n,
    items: [{ title: 'Charging fault', line: 0, seconds: 3600 }],
  });
  const itemId = visit.itemIds[0] ?? '';
  await issueTo(shop, itemId, {
    ...{ partId: part.id, quantity: '1', coreCharge: CHARGE },
  });
  const invoice = await draft(shop, visit);
  // 95.00 of work and 100.00 of a part end at 150.00; the core stands beside it.
  expect(invoice.net).toBe('40000');
  expect(await costSoFar(shop, visit)).toBe('40000');
  expect(invoice.difference).toContainEqual({
    ...{ kind: 'not_quoted', amount: '25000' },
    title: 'Core of Alternator: charged until the old one comes back: not in the quote',
  });
});
