/**
 * Issued documents as e-invoices against OASIS UBL 2.1 and EN 16931-1:2017: order of elements, and every total reckoned
 * anew from the lines. Sources are beside the rules, in support/e-invoice-rules.ts.
 */
import { DEMO_SHOP_ID, loadDemo } from '@fairlead/api/demo/load-demo';
import { globalId } from '@fairlead/api/ids';
import { inShop } from '@fairlead/database';
import {
  documentTotals,
  formatAmount,
  lineNet,
  type Minor,
  minor,
  type TaxCategory,
} from '@fairlead/money';
import { type IssuedDocument, ublXml, whyNotEInvoice } from '@fairlead/money/e-invoice';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../support/api.ts';
import { all, keepsTheRules, readEInvoice, text, texts } from '../support/e-invoice-rules.ts';
import { fitsTheSchema } from '../support/e-invoice-schema.ts';

const party = {
  name: 'Payer & Sons',
  addressLine1: 'Limpet Row 3',
  addressLine2: 'Second floor',
  city: 'Ebbsay',
  postcode: 'EB 1003',
  country: 'US',
};
const seller = {
  ...party,
  name: 'The <Shop>',
  vatNumber: 'PT123456789',
  taxNumber: 'T-1',
  registrationNumber: 'R-1',
  exemptionReason: 'Exempt here',
};

const taxes: [TaxCategory, string][] = [
  ['S', '25'],
  ['S', '8.50'],
  ['S', '7.3333'],
  ['Z', '0'],
  ['E', '0.0000'],
];
const decimal = (most: number, places: number) =>
  fc
    .tuple(fc.integer({ min: 0, max: most }), fc.integer({ min: 0, max: 10 ** places - 1 }))
    .map(([whole, part]) => `${whole}.${String(part).padStart(places, '0')}`);
/** Text that people may give, with what XML has to escape or cannot hold. */
const title = fc
  .string({ minLength: 1, maxLength: 40, unit: 'grapheme' })
  .map((words) => `x${words}<&>"\u0000\u001f`);
const line = fc.record({
  title,
  quantity: decimal(400, 3),
  unitPrice: decimal(20_000, 4),
  held: fc.boolean(),
  unit: fc.constantFrom('hour', 'each', 'job', 'not billed', 'furlong'),
  tax: fc.constantFrom(...taxes),
  reason: fc.constantFrom(undefined, 'Public authority, certificate 12-B', 'Flown abroad'),
});

/** A document whose amounts are reckoned as the books do. */
const documents = fc
  .record({
    lines: fc.array(line, { minLength: 1, maxLength: 12 }),
    credit: fc.boolean(),
    paid: fc.nat(100),
    dueOn: fc.constantFrom('2031-06-03', null),
  })
  .map(({ lines, credit, paid, dueOn }): IssuedDocument => {
    const sign = credit ? -1n : 1n;
    const rows = lines.map(
      ({ held, quantity: many, tax: [taxCategory, taxRate], reason, ...each }, index) => {
        const quantity = held !== credit ? `-${many}` : many;
        const net = lineNet({ quantity, unitPrice: each.unitPrice }, 'USD');
        const exempt = taxCategory === 'E' && reason !== undefined && { taxReason: reason };
        return { ...each, position: index + 1, quantity, taxCategory, taxRate, net, ...exempt };
      },
    );
    const totals = documentTotals({
      currency: 'USD',
      lines: rows.map(({ net, taxCategory, taxRate, position }) => ({
        id: `${position}`,
        quantity: '1',
        unitPrice: formatAmount(net, 'USD'),
        taxCategory,
        taxRate,
      })),
    });
    return {
      number: '7',
      issuedOn: '2031-05-04',
      dueOn,
      notes: ['QQ-117, order 5: a & b'],
      currency: 'USD',
      seller,
      buyer: party,
      lines: rows,
      net: totals.net,
      tax: totals.taxTotal,
      gross: totals.gross,
      paid: credit ? minor(0n) : (minor((totals.gross * BigInt(paid)) / 100n) as Minor),
      credits: sign < 0n ? { number: '6', issuedOn: '2031-05-01' } : null,
    };
  });

/** XML 1.0, 2.2 and 2.11: characters that it cannot hold are asked for, and every end of a line is a line feed; the reader takes those of XML 1.1 for ends as well. */
const asXmlReads = (words: string) =>
  [...words.replace(/\r[\n\u0085]/g, '\n').replace(/[\r\u0085\u2028\u2029]/g, '\n')]
    .map((letter) => {
      const code = letter.codePointAt(0) ?? 0;
      const kept = code >= 32 ? code !== 0xfffe && code !== 0xffff : [9, 10].includes(code);
      return kept ? letter : '?';
    })
    .join('');

it('keeps the order of UBL 2.1 and BR-CO-10 to BR-CO-17 for four hundred random documents', () => {
  let notes = 0;
  fc.assert(
    fc.property(documents, (document) => {
      const root = keepsTheRules(ublXml(document));
      if (document.credits) notes += 1;
      expect(texts(root, 'AccountingSupplierParty/Party/PartyTaxScheme/CompanyID')).toEqual([
        'PT123456789',
        'T-1',
      ]);
      expect(text(root, 'LegalMonetaryTotal/TaxInclusiveAmount')).toBe(
        formatAmount(minor(document.credits ? -document.gross : document.gross), 'USD'),
      );
      const names = texts(root, `${document.credits ? 'CreditNote' : 'Invoice'}Line/Item/Name`);
      expect(names).toHaveLength(document.lines.length);
      for (const [index, name] of names.entries())
        expect(name).toBe(asXmlReads(document.lines[index]?.title ?? ''));
    }),
    { numRuns: 400 },
  );
  expect(notes).toBeGreaterThan(50);
});

it('has the elements, the order, the numbers of each and the codes of an independent schema of EN 16931 (npm @e-invoice-eu/core)', () => {
  fc.assert(
    fc.property(documents, (document) => fitsTheSchema(ublXml(document))),
    { numRuns: 200 },
  );
});

it('says why it is exempt once for all lines of category E (EN 16931-1, BT-120 with BR-E-01 and BR-E-10), each reason once', () => {
  let several = 0;
  fc.assert(
    fc.property(documents, (document) => {
      const lines = document.lines.filter(({ taxCategory }) => taxCategory === 'E');
      const reasons = [...new Set(lines.map(({ taxReason }) => taxReason ?? 'Exempt here'))];
      if (reasons.length > 1) several += 1;
      expect(
        texts(
          keepsTheRules(ublXml(document)),
          'TaxTotal/TaxSubtotal/TaxCategory/TaxExemptionReason',
        ),
      ).toEqual(reasons.length === 0 ? [] : [reasons.join('; ')]);
      // The seller's own reason is only needed where a line has none of its own.
      const own = { ...document, seller: { ...seller, exemptionReason: undefined } };
      expect(whyNotEInvoice(own).some((why) => why.includes('BR-E-10'))).toBe(
        lines.some(({ taxReason }) => taxReason === undefined),
      );
    }),
    { numRuns: 300 },
  );
  expect(several).toBeGreaterThan(20);
});

describe('the rules themselves', () => {
  const [sample] = fc.sample(
    documents.filter(({ credits, gross }) => !credits && gross > 0n),
    {
      numRuns: 1,
      seed: 7,
    },
  );
  if (!sample) throw new Error('no sample');
  const xml = ublXml(sample);
  it.each([
    ['a cent more to pay', /(<cbc:PayableAmount[^>]*>)(\d+)/, '$11$2'],
    [
      'an element out of order',
      /(<cbc:ID>7<\/cbc:ID>)\s*(<cbc:IssueDate>[^<]*<\/cbc:IssueDate>)/,
      '$2$1',
    ],
    ['a third decimal', /(<cbc:TaxExclusiveAmount[^>]*>[^<]*)/, '$10'],
    ['another rate', /<cbc:Percent>[^<]*/, '<cbc:Percent>99'],
    ['no country', /<cac:Country>[\s\S]*?<\/cac:Country>/, ''],
    ['a namespace less', / xmlns:cac="[^"]*"/, ''],
  ])('fail %s', (_, what, by) => {
    const broken = xml.replace(what, by);
    expect(broken).not.toBe(xml);
    expect(() => keepsTheRules(broken)).toThrow();
  });

  it.each([
    [
      'an element out of order',
      /(<cbc:ID>7<\/cbc:ID>)\s*(<cbc:IssueDate>[^<]*<\/cbc:IssueDate>)/,
      '$2$1',
    ],
    ['a unit that UNECE does not know', /unitCode="[A-Z0-9]+"/, 'unitCode="HOURS"'],
    ['a currency that ISO 4217 does not know', /(DocumentCurrencyCode>)USD/, '$1USX'],
    ['no totals', /<cac:LegalMonetaryTotal>[\s\S]*?<\/cac:LegalMonetaryTotal>/, ''],
    ['an element of nobody', /<cbc:IssueDate>/, '<cbc:Mood>good</cbc:Mood><cbc:IssueDate>'],
  ])('of the independent schema fail %s', (_, what, by) => {
    const broken = xml.replace(what, by);
    expect(broken).not.toBe(xml);
    expect(() => fitsTheSchema(broken)).toThrow();
  });
});

describe('the demo', () => {
  let api: TestApi;
  let cookie: string;
  let invoiceId: string;
  const fetched = async (id: string) => {
    const answer = await fetch(`${api.origin}/paper/invoice/${globalId('Invoice', id)}.xml`, {
      headers: { cookie },
    });
    expect(answer.status).toBe(200);
    const xml = await answer.text();
    fitsTheSchema(xml);
    return xml;
  };
  const inDemo = <T>(work: Parameters<typeof inShop<T>>[2]) =>
    inShop(api.client, { shopId: DEMO_SHOP_ID, personId: null, requestId: 'test' }, work);
  beforeAll(async () => {
    api = await startApi();
    const { signIns } = await loadDemo({ appUrl: api.database.appUrl, uploadsDir: api.uploadsDir });
    const desk = signIns.find(({ role }) => /desk/i.test(role)) ?? signIns[0];
    const answer = await fetch(`${api.origin}/auth/sign-in/email`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
      body: JSON.stringify({ email: desk?.email, password: desk?.password }),
    });
    cookie = answer.headers
      .getSetCookie()
      .map((each) => each.split(';')[0])
      .join('; ');
    invoiceId = (
      await inDemo((tx) => tx.invoice.findFirstOrThrow({ where: { issuedAt: { not: null } } }))
    ).id;
  });
  afterAll(async () => {
    expect(api.faults).toEqual([]);
    await api.stop();
  });

  it('has an invoice that keeps the rules, with what was paid, and the figures of its books', async () => {
    const kept = await inDemo((tx) =>
      tx.invoice.findUniqueOrThrow({
        where: { id: invoiceId },
        include: { lines: true, payments: true },
      }),
    );
    const root = keepsTheRules(await fetched(invoiceId));
    const money = (amount: bigint) => formatAmount(minor(amount), 'USD');
    const paid = kept.payments.reduce((sum, { amountMinor }) => sum + amountMinor, 0n);
    expect(text(root, 'ID')).toBe(`${kept.number}`);
    expect(text(root, 'LegalMonetaryTotal/TaxExclusiveAmount')).toBe(money(kept.netMinor));
    expect(text(root, 'TaxTotal/TaxAmount')).toBe(money(kept.taxMinor));
    expect(text(root, 'LegalMonetaryTotal/TaxInclusiveAmount')).toBe(money(kept.grossMinor));
    expect(text(root, 'LegalMonetaryTotal/PrepaidAmount')).toBe(money(paid));
    expect(text(root, 'LegalMonetaryTotal/PayableAmount')).toBe(money(kept.grossMinor - paid));
    expect(all(root, 'InvoiceLine')).toHaveLength(kept.lines.length);
  });

  it('takes it back by a credit note that keeps them too, and names it', async () => {
    const answer = await fetch(`${api.origin}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', cookie, origin: 'http://shop.test' },
      body: JSON.stringify({
        query:
          'mutation($id: ID!) { creditInvoice(input: { invoiceId: $id }) { ... on Invoice { id number } ... on Refusal { message } } }',
        variables: { id: globalId('Invoice', invoiceId) },
      }),
    });
    const { data } = (await answer.json()) as { data: { creditInvoice: { id: string } } };
    const note = await inDemo((tx) =>
      tx.invoice.findFirstOrThrow({ where: { creditsId: invoiceId } }),
    );
    expect(data.creditInvoice.id).toBe(globalId('Invoice', note.id));
    const root = keepsTheRules(await fetched(note.id));
    const before = readEInvoice(await fetched(invoiceId));
    expect(root.localName).toBe('CreditNote');
    expect(text(root, 'BillingReference/InvoiceDocumentReference/ID')).toBe(text(before, 'ID'));
    for (const total of ['TaxTotal/TaxAmount', 'LegalMonetaryTotal/TaxInclusiveAmount'])
      expect(text(root, total)).toBe(text(before, total));
  });
});
