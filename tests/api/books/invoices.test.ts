import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { makeVisit } from '../../support/visit.ts';
import {
  type Billed,
  bill,
  draft,
  INVOICE,
  issueTo,
  makeAccepted,
  makeSold,
  release,
} from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const sum = (amounts: string[]) => amounts.reduce((all, amount) => all + BigInt(amount), 0n);
/** Quoted plus every step is what is billed, to the cent. */
const closes = ({ quoted, net, difference }: Billed) =>
  expect(BigInt(quoted ?? '0') + sum(difference.map(({ amount }) => amount))).toBe(BigInt(net));

const flat = {
  title: '100-hour inspection',
  pricing: 'fixed',
  likelyMinor: 124_000n,
  unitPrice: '1240',
} as const;
const byTime = { title: 'Starter replaced', likelyMinor: 19_000n } as const;

it('bills a flat price as quoted, hours in tenths at the quoted rate, and parts issued, exactly', async () => {
  const shop = await makeShop(api);
  // 100 minutes and 20 seconds: 6,020 s are 1.672 h, billed 1.7 h up to the next tenth; 1.7 × 95.00 = 161.50
  const visit = await makeSold(shop, {
    lines: [flat, { title: 'Panels', pricing: 'fixed', likelyMinor: 0n, unitPrice: '0' }, byTime],
    ceiling: 200_000n,
    items: [
      { line: 1, seconds: 3600 },
      { line: 2, seconds: 6020 },
    ],
  });
  await issueTo(shop, visit.itemIds[1] ?? '', { unitPrice: '12.345', quantity: '3' });
  const made = await draft(shop, visit);
  expect(made.lines).toEqual([
    { title: '100-hour inspection', quantity: '1', unit: 'job', unitPrice: '1240', net: '124000' },
    { title: 'Starter replaced', quantity: '1.7', unit: 'hour', unitPrice: '95', net: '16150' },
    { title: 'Gasket', quantity: '3', unit: 'each', unitPrice: '12.345', net: '3704' },
  ]);
  // Tax: 0 % on labour, 7 % on parts: 37.04 × 7 % = 2.5928 → 2.59
  expect(made).toMatchObject({
    state: 'draft',
    number: null,
    net: '143854',
    tax: '259',
    gross: '144113',
    agreed: '200000',
    beyond: '0',
    owed: '0',
    quoted: '143000',
  });
  expect(made.difference).toEqual([
    { kind: 'labour', title: 'Starter replaced: less labour than was likely', amount: '-2850' },
    { kind: 'parts', title: 'Starter replaced: parts that were not quoted', amount: '3704' },
  ]);
  closes(made);
});

it('splits off what goes past the ceiling and does not bill it', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [flat, byTime],
    ceiling: 140_000n,
    items: [{ line: 1, seconds: 7200 }],
  });
  const made = await draft(shop, visit);
  expect(made).toMatchObject({ net: '140000', beyond: '3000', agreed: '140000' });
  expect(made.lines.at(-1)).toMatchObject({
    quantity: '-1',
    unit: 'not billed',
    unitPrice: '30',
    net: '-3000',
  });
  closes(made);
});

it('counts a finding that was agreed as scope added, and a part once, at its quoted price', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [flat, byTime],
    ceiling: 150_000n,
    items: [{ line: 1, seconds: 3600 }],
    likely: 142_000n,
  });
  const { id: findingId } = await shop.inside((tx) =>
    tx.finding.create({
      data: {
        orderId: visit.orderId,
        number: 1,
        title: 'Crack',
        provisionalClass: 'unairworthy',
        foundAt: new Date(),
        foundById: shop.people.mechanic.id,
        clientEventId: crypto.randomUUID(),
      },
    }),
  );
  const { id: partId } = await shop.inside((tx) =>
    tx.part.create({
      data: { shopId: shop.shopId, number: 'C-1', title: 'Collector', unitPrice: '700' },
    }),
  );
  const { lineIds } = await makeAccepted(shop, {
    lines: [
      { title: 'Collector replaced', likelyMinor: 30_000n },
      {
        title: 'Collector',
        likelyMinor: 64_000n,
        unitPrice: '640',
        category: 'parts',
        taxRate: '7',
        partId,
      },
    ],
    ceiling: 110_000n,
    orderId: visit.orderId,
    findingId,
  });
  const { id: itemId } = await shop.inside((tx) =>
    tx.workItem.create({
      data: {
        orderId: visit.orderId,
        position: 2,
        title: 'Collector replaced',
        jasc: '7810',
        cautions: [],
        quoteLineId: lineIds[0] ?? '',
        findingId,
      },
    }),
  );
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId,
        startedAt: new Date('2026-03-15T08:00:00Z'),
        endedAt: new Date('2026-03-15T12:00:00Z'),
      },
    }),
  );
  await issueTo(shop, itemId, { partId, quantity: '1' });
  const made = await draft(shop, visit);
  expect(made.lines.map(({ title, net }) => [title, net])).toEqual([
    ['100-hour inspection', '124000'],
    ['Starter replaced', '9500'],
    ['Collector replaced', '38000'],
    ['Collector', '64000'],
  ]);
  expect(made).toMatchObject({ net: '235500', agreed: '260000', quoted: '142000' });
  expect(made.difference.map(({ kind, amount }) => [kind, amount])).toEqual([
    ['whole', '1000'],
    ['labour', '-9500'],
    ['scope_added', '94000'],
    ['labour', '8000'],
  ]);
  closes(made);
});

it('what nobody agreed to is not billed at all', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { items: [{ seconds: 3600 }] });
  const made = await draft(shop, visit);
  expect(made).toMatchObject({ net: '0', beyond: '9500', agreed: '0' });
  closes(made);
});

it('a part that came back is not billed, and an order with nothing on it is refused', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, { lines: [byTime], ceiling: 50_000n, items: [{ line: 0 }] });
  const { lotId } = await issueTo(shop, visit.itemIds[0] ?? '', { quantity: '2' });
  expect((await draft(shop, visit)).net).toBe('2500');
  await shop.inside((tx) =>
    tx.stockMovement.create({
      data: { lotId, itemId: visit.itemIds[0] ?? '', kind: 'return', quantity: '2' },
    }),
  );
  expect(await draft(shop, visit)).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('nothing to bill'),
  });
});

it('is drafted again in the place of a draft, issued once when released, and gets its number from the database', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [flat, byTime],
    ceiling: 300_000n,
    items: [{ line: 1, seconds: 3600 }],
  });
  const first = await draft(shop, visit);
  expect(await bill(shop, 'issueInvoice', { invoiceId: first.id })).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('is not released'),
  });
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.inspector.id,
        itemId: visit.itemIds[0] ?? '',
        startedAt: new Date('2026-03-15T08:00:00Z'),
        endedAt: new Date('2026-03-15T09:00:00Z'),
      },
    }),
  );
  await release(shop, visit);
  expect(await bill(shop, 'issueInvoice', { invoiceId: first.id })).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringMatching(
      /draft says 1,335\.00 USD and the work now comes to 1,430\.00 USD/,
    ),
  });
  const second = await draft(shop, visit);
  expect(second.id).toBe(first.id);
  expect(await shop.inside((tx) => tx.invoice.count())).toBe(1);
  const both = await Promise.all(
    [1, 2].map(() => bill(shop, 'issueInvoice', { invoiceId: second.id })),
  );
  for (const issued of both)
    expect(issued).toMatchObject({
      id: second.id,
      number: 1,
      state: 'issued',
      owed: '143000',
      chainHash: expect.stringMatching(/^[0-9a-f]{64}$/),
    });
  expect(both[0]?.dueOn).not.toBeNull();
  expect(await draft(shop, visit)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('billed already, with invoice 1'),
  });
});

it('records payments up to what is owed, each once', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [flat],
    ceiling: 300_000n,
    items: [{ line: null, initialled: true }],
  });
  const { id } = await draft(shop, visit);
  const paidAt = new Date(Date.now() - 60_000).toISOString();
  const pay = (amount: string, over: Record<string, unknown> = {}) =>
    bill(shop, 'recordPayment', {
      invoiceId: id,
      amount,
      method: 'bank transfer',
      paidAt,
      ...over,
    });
  expect((await pay('100')).code).toBe('AGAINST_RULE');
  await release(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: id });
  for (const [amount, code] of [
    ['0', 'BAD_INPUT'],
    ['-5', 'BAD_INPUT'],
    ['124001', 'AGAINST_RULE'],
  ] as const)
    expect(await pay(amount)).toMatchObject({
      code,
      message: expect.stringContaining('at most what is owed, 1,240.00 USD'),
    });
  expect((await pay('24000')).owed).toBe('100000');
  expect((await pay('24000')).code).toBe('CONFLICT');
  const clientEventId = crypto.randomUUID();
  const twice = await Promise.all([1, 2].map(() => pay('50000', { clientEventId })));
  expect(twice.map(({ owed }) => owed)).toEqual(['50000', '50000']);
  expect((await pay('50000', { method: ' ' })).code).toBe('BAD_INPUT');
  expect((await pay('50000', { paidAt: '2190-01-01T00:00:00Z' })).code).toBe('BAD_INPUT');
  expect(await pay('50000', { method: 'card' })).toMatchObject({ owed: '0', paid: '124000' });
  expect(await shop.inside((tx) => tx.payment.count())).toBe(3);
});

it('is taken back whole by a credit note with its own number, once, and the order can be billed again', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, { lines: [flat], ceiling: 300_000n, items: [{ line: null }] });
  const { id } = await draft(shop, visit);
  expect((await bill(shop, 'creditInvoice', { invoiceId: id })).code).toBe('AGAINST_RULE');
  await release(shop, visit);
  await bill(shop, 'issueInvoice', { invoiceId: id });
  const note = await bill(shop, 'creditInvoice', { invoiceId: id });
  expect(note).toMatchObject({
    number: 2,
    state: 'issued',
    net: '-124000',
    gross: '-124000',
    owed: '0',
    quoted: null,
    difference: [],
  });
  expect(note.lines).toEqual([
    {
      title: '100-hour inspection',
      quantity: '-1',
      unit: 'job',
      unitPrice: '1240',
      net: '-124000',
    },
  ]);
  expect((await bill(shop, 'creditInvoice', { invoiceId: id })).id).toBe(note.id);
  expect((await bill(shop, 'creditInvoice', { invoiceId: note.id })).code).toBe('AGAINST_RULE');
  const { data } = await shop.as<{ node: Billed }>(
    'manager',
    `query($id: ID!) { node(id: $id) { ... on Invoice { ${INVOICE} } } }`,
    { id },
  );
  expect(data?.node).toMatchObject({ state: 'credited', owed: '0' });
  const again = await draft(shop, visit);
  expect(again).toMatchObject({ state: 'draft', net: '124000' });
});

it('is for the front desk and the manager of this shop', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, { lines: [flat], ceiling: 300_000n, items: [{ line: null }] });
  for (const role of ['mechanic', 'inspector'] as const)
    expect((await draft(shop, visit, role)).code).toBe('FORBIDDEN');
  const made = await draft(shop, visit, 'manager');
  const other = await makeShop(api);
  expect((await draft(other, visit)).code).toBe('NOT_FOUND');
  for (const [name, input] of [
    ['issueInvoice', {}],
    ['creditInvoice', {}],
    ['recordPayment', { amount: '5', method: 'card' }],
  ] as const)
    expect((await bill(other, name, { invoiceId: made.id, ...input })).code).toBe('NOT_FOUND');
  const planned = await makeVisit(shop, { arrived: false });
  expect(await draft(shop, planned)).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('has arrived'),
  });
});

it('the list of invoices takes as many statements for eight as for one', async () => {
  const shop = await makeShop(api);
  const list = () =>
    shop.as(
      'manager',
      `{ invoices { totalCount edges { node { ${INVOICE} contact { name } payments { amount } order { number aircraft { registration } } } } } }`,
    );
  const one = async () => {
    const visit = await makeSold(shop, {
      lines: [flat, byTime],
      ceiling: 300_000n,
      items: [{ line: 1 }],
    });
    await issueTo(shop, visit.itemIds[0] ?? '', {});
    await release(shop, visit);
    await bill(shop, 'issueInvoice', { invoiceId: (await draft(shop, visit)).id });
  };
  await one();
  const few = await api.statementsOf(list);
  for (let turn = 0; turn < 7; turn += 1) await one();
  const many = await api.statementsOf(async () => {
    const { data } = await list();
    expect((data as { invoices: { edges: unknown[] } }).invoices.edges).toHaveLength(8);
  });
  expect(many.length).toBe(few.length);
  expect(many.length).toBeLessThan(30);
  process.stdout.write(`invoices list: ${many.length} statements\n`);
});
