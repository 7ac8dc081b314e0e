import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { docstringExamples, evaluate } from '../../../tests/support/docstring-examples.ts';
import * as eInvoice from '../src/e-invoice/index.ts';
import {
  countries,
  type IssuedDocument,
  type UblElement,
  ublTree,
  ublXml,
  whyNotEInvoice,
} from '../src/e-invoice/index.ts';
import { minor } from '../src/index.ts';

const line = {
  position: 1,
  title: 'Starter replaced',
  quantity: '1.700',
  unit: 'hour',
  unitPrice: '95.0000',
  net: minor(16150n),
  taxCategory: 'S',
  taxRate: '4.0000',
};
// 1.7 × 95.00 = 161.50; 4 % of it is 6.46; with tax 167.96.
const invoice: IssuedDocument = Object.freeze({
  number: '12',
  issuedOn: '2031-05-04',
  dueOn: '2031-06-03',
  notes: ['QQ-117'],
  currency: 'USD',
  seller: {
    name: 'Shop',
    addressLine1: 'Hangar 2',
    addressLine2: 'The far end',
    city: 'Ebbsay',
    postcode: 'EB 1',
    country: 'US',
    taxNumber: 'T-1',
    registrationNumber: 'R-1',
  },
  buyer: { name: 'Payer', addressLine1: 'Row 3', city: 'Ebbsay', country: 'US' },
  lines: Object.freeze([Object.freeze(line)]),
  net: minor(16150n),
  tax: minor(646n),
  gross: minor(16796n),
  paid: minor(0n),
  credits: null,
});
const sellerWith = (over: object) => ({
  ...invoice,
  seller: { ...invoice.seller, ...over } as never,
});

/** All texts of a path such as cac:TaxTotal/cbc:TaxAmount. */
function at(tree: UblElement, path: string): string[] {
  const steps = path.split('/');
  let found: readonly UblElement[] = [tree];
  for (const step of steps)
    found = found.flatMap(({ content }) =>
      typeof content === 'string' ? [] : content.filter(({ name }) => name === step),
    );
  return found.map(({ content }) => (typeof content === 'string' ? content : '…'));
}

const examples = docstringExamples(join(import.meta.dirname, '../src/e-invoice'));
test.each(examples)('$file: $call', ({ call, value }) => {
  expect(evaluate(call, { ...eInvoice })).toEqual(evaluate(value, {}));
});

test('knows the 249 countries of ISO 3166-1, each by a name of its own', () => {
  // 249 officially assigned codes: from memory. The names are those of Unicode CLDR in the runtime.
  const names = new Intl.DisplayNames('en', { type: 'region', fallback: 'none' });
  expect(countries.size).toBe(249);
  expect([...countries].filter((code) => !names.of(code))).toEqual([]);
  expect(new Set([...countries].map((code) => names.of(code))).size).toBe(249);
});

describe('an invoice', () => {
  const tree = ublTree(invoice);
  test('has its figures as decimal text of its currency', () => {
    expect(tree.name).toBe('Invoice');
    expect(at(tree, 'cbc:InvoiceTypeCode')).toEqual(['380']);
    expect(at(tree, 'cac:TaxTotal/cbc:TaxAmount')).toEqual(['6.46']);
    expect(at(tree, 'cac:LegalMonetaryTotal/cbc:TaxInclusiveAmount')).toEqual(['167.96']);
    expect(at(tree, 'cac:LegalMonetaryTotal/cbc:PayableAmount')).toEqual(['167.96']);
    expect(at(tree, 'cac:LegalMonetaryTotal/cbc:PrepaidAmount')).toEqual([]);
    expect(at(tree, 'cac:InvoiceLine/cbc:InvoicedQuantity')).toEqual(['1.7']);
    expect(at(tree, 'cac:InvoiceLine/cac:Price/cbc:PriceAmount')).toEqual(['95']);
  });
  test('takes what was paid off what is due', () => {
    const paid = ublTree({ ...invoice, paid: minor(6796n) });
    expect(at(paid, 'cac:LegalMonetaryTotal/cbc:PrepaidAmount')).toEqual(['67.96']);
    expect(at(paid, 'cac:LegalMonetaryTotal/cbc:PayableAmount')).toEqual(['100.00']);
  });
  test('says when it is to be paid, or on receipt', () => {
    expect(at(tree, 'cbc:DueDate')).toEqual(['2031-06-03']);
    expect(at(tree, 'cac:PaymentTerms/cbc:Note')).toEqual(['To be paid by 2031-06-03.']);
    const open = ublTree({ ...invoice, dueOn: null });
    expect(at(open, 'cbc:DueDate')).toEqual([]);
    expect(at(open, 'cac:PaymentTerms/cbc:Note')).toEqual(['To be paid on receipt.']);
  });
  test('says why category E is not taxed', () => {
    const exempt = {
      ...sellerWith({ exemptionReason: 'Public aircraft' }),
      lines: [{ ...line, taxCategory: 'E', taxRate: '0' }],
      tax: minor(0n),
      gross: minor(16150n),
    };
    expect(
      at(ublTree(exempt), 'cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:TaxExemptionReason'),
    ).toEqual(['Public aircraft']);
  });
});

test('a credit note is of type 381, positive, and names its invoice', () => {
  const note = ublTree({
    ...invoice,
    number: '13',
    dueOn: null,
    net: minor(-16150n),
    tax: minor(-646n),
    gross: minor(-16796n),
    lines: [{ ...line, quantity: '-1.7', net: minor(-16150n) }],
    credits: { number: '12', issuedOn: '2031-05-04' },
  });
  expect(note.name).toBe('CreditNote');
  expect(at(note, 'cbc:CreditNoteTypeCode')).toEqual(['381']);
  expect(at(note, 'cac:BillingReference/cac:InvoiceDocumentReference/cbc:ID')).toEqual(['12']);
  expect(at(note, 'cac:LegalMonetaryTotal/cbc:PayableAmount')).toEqual(['167.96']);
  expect(at(note, 'cac:CreditNoteLine/cbc:CreditedQuantity')).toEqual(['1.7']);
});

test('escapes what XML wants escaped, and asks what XML cannot hold', () => {
  const xml = ublXml({ ...invoice, notes: ['a < b & "c" \u0001 ]]>'] });
  expect(xml).toContain('a &lt; b &amp; "c" ? ]]&gt;');
});

test.each([
  ['a currency without decimals', { ...invoice, currency: 'JPY' }, /JPY, which does not have two/],
  ['a currency with three decimals', { ...invoice, currency: 'KWD' }, /BR-DEC/],
  ['no parties kept', { ...invoice, seller: null }, /issued before the addresses/],
  ['no city of the shop', sellerWith({ city: undefined }), /needs of the shop: a city \(.*BG-5/],
  ['a country that is none', sellerWith({ country: 'QQ' }), /a country of ISO 3166-1/],
  [
    'a payer without address',
    { ...invoice, buyer: { name: 'Payer' } },
    /the payer, Payer: a first line of the address, a city, a country/,
  ],
  ['no registration', sellerWith({ registrationNumber: undefined }), /BR-CO-26/],
  ['no tax number', sellerWith({ taxNumber: undefined }), /BR-S-02/],
  ['a VAT number without country', sellerWith({ vatNumber: '123' }), /BR-CO-09/],
  [
    'an exemption without reason',
    {
      ...invoice,
      lines: [{ ...line, taxCategory: 'E', taxRate: '0' }],
      tax: minor(0n),
      gross: minor(16150n),
    },
    /BR-E-10/,
  ],
  ['a standard rate of 0', { ...invoice, lines: [{ ...line, taxRate: '0' }] }, /BR-S-05/],
  ['a zero rate of 4', { ...invoice, lines: [{ ...line, taxCategory: 'Z' }] }, /BR-Z-05/],
  ['another category', { ...invoice, lines: [{ ...line, taxCategory: 'G' }] }, /category G/],
  ['no line', { ...invoice, lines: [] }, /BR-16/],
  [
    'a negative price',
    { ...invoice, lines: [{ ...line, quantity: '-1.7', unitPrice: '-95' }] },
    /BR-27/,
  ],
  [
    'a line that is not quantity × price',
    { ...invoice, lines: [{ ...line, quantity: '2' }] },
    /190.00/,
  ],
  ['a total that is not of its lines', { ...invoice, gross: minor(16797n) }, /BR-CO-15/],
])('refuses %s, and says what is needed', (_, document, words) => {
  expect(whyNotEInvoice(document as IssuedDocument).join(' ')).toMatch(words);
  expect(() => ublTree(document as IssuedDocument)).toThrow(RangeError);
});
