import { DOMParser, type Element } from '@xmldom/xmldom';
import { expect } from 'vitest';

const UBL = 'urn:oasis:names:specification:ubl:schema:xsd:';
const CBC = `${UBL}CommonBasicComponents-2`;
const CAC = `${UBL}CommonAggregateComponents-2`;

/**
 * Order of elements in OASIS UBL 2.1 (docs.oasis-open.org/ubl/os-UBL-2.1: xsd/maindoc/UBL-Invoice-2.1.xsd,
 * UBL-CreditNote-2.1.xsd and xsd/common/UBL-CommonAggregateComponents-2.1.xsd). The two documents whole, of the
 * aggregates those parts that EN 16931 uses. From memory.
 */
const sequences: Record<string, string> = {
  Invoice:
    'UBLExtensions UBLVersionID CustomizationID ProfileID ProfileExecutionID ID CopyIndicator UUID IssueDate IssueTime DueDate InvoiceTypeCode Note TaxPointDate DocumentCurrencyCode TaxCurrencyCode PricingCurrencyCode PaymentCurrencyCode PaymentAlternativeCurrencyCode AccountingCostCode AccountingCost LineCountNumeric BuyerReference InvoicePeriod OrderReference BillingReference DespatchDocumentReference ReceiptDocumentReference StatementDocumentReference OriginatorDocumentReference ContractDocumentReference AdditionalDocumentReference ProjectReference Signature AccountingSupplierParty AccountingCustomerParty PayeeParty BuyerCustomerParty SellerSupplierParty TaxRepresentativeParty Delivery DeliveryTerms PaymentMeans PaymentTerms PrepaidPayment AllowanceCharge TaxExchangeRate PricingExchangeRate PaymentExchangeRate PaymentAlternativeExchangeRate TaxTotal WithholdingTaxTotal LegalMonetaryTotal InvoiceLine',
  CreditNote:
    'UBLExtensions UBLVersionID CustomizationID ProfileID ProfileExecutionID ID CopyIndicator UUID IssueDate IssueTime TaxPointDate CreditNoteTypeCode Note DocumentCurrencyCode TaxCurrencyCode PricingCurrencyCode PaymentCurrencyCode PaymentAlternativeCurrencyCode AccountingCostCode AccountingCost LineCountNumeric BuyerReference InvoicePeriod DiscrepancyResponse OrderReference BillingReference DespatchDocumentReference ReceiptDocumentReference ContractDocumentReference AdditionalDocumentReference StatementDocumentReference OriginatorDocumentReference Signature AccountingSupplierParty AccountingCustomerParty PayeeParty BuyerCustomerParty SellerSupplierParty TaxRepresentativeParty Delivery DeliveryTerms PaymentMeans PaymentTerms TaxExchangeRate PricingExchangeRate PaymentExchangeRate PaymentAlternativeExchangeRate AllowanceCharge TaxTotal LegalMonetaryTotal CreditNoteLine',
  BillingReference: 'InvoiceDocumentReference',
  InvoiceDocumentReference: 'ID IssueDate',
  AccountingSupplierParty: 'Party',
  AccountingCustomerParty: 'Party',
  Party:
    'EndpointID PartyIdentification PartyName PostalAddress PartyTaxScheme PartyLegalEntity Contact',
  PostalAddress:
    'StreetName AdditionalStreetName CityName PostalZone CountrySubentity AddressLine Country',
  Country: 'IdentificationCode',
  PartyTaxScheme: 'CompanyID TaxScheme',
  PartyLegalEntity: 'RegistrationName CompanyID CompanyLegalForm',
  PaymentTerms: 'Note',
  TaxTotal: 'TaxAmount TaxSubtotal',
  TaxSubtotal: 'TaxableAmount TaxAmount TaxCategory',
  TaxCategory: 'ID Percent TaxExemptionReasonCode TaxExemptionReason TaxScheme',
  ClassifiedTaxCategory: 'ID Percent TaxScheme',
  TaxScheme: 'ID',
  LegalMonetaryTotal:
    'LineExtensionAmount TaxExclusiveAmount TaxInclusiveAmount AllowanceTotalAmount ChargeTotalAmount PrepaidAmount PayableRoundingAmount PayableAmount',
  InvoiceLine:
    'ID Note InvoicedQuantity LineExtensionAmount AccountingCost InvoicePeriod OrderLineReference DocumentReference AllowanceCharge Item Price',
  CreditNoteLine:
    'ID Note CreditedQuantity LineExtensionAmount AccountingCost InvoicePeriod OrderLineReference DocumentReference AllowanceCharge Item Price',
  Item: 'Description Name ClassifiedTaxCategory',
  Price: 'PriceAmount BaseQuantity AllowanceCharge',
};

const childrenOf = (element: Element): Element[] =>
  [...element.childNodes].filter((node): node is Element => node.nodeType === 1);

/** The document's element, read by a library that had no part in writing it. Anything it complains of fails. */
export function readEInvoice(xml: string): Element {
  const parser = new DOMParser({
    onError: (level, message) => {
      // Somebody may have written U+FFFD; it is a character like any other.
      if (level === 'warning' && message.startsWith('Unicode replacement character')) return;
      throw new Error(`${level}: ${message}`);
    },
  });
  const root = parser.parseFromString(xml, 'text/xml').documentElement;
  if (!root) throw new Error('There is no document element');
  return root;
}

/** All elements at a path of local names. */
export const all = (from: Element, path: string): Element[] =>
  path
    .split('/')
    .reduce<Element[]>(
      (found, name) =>
        found.flatMap((each) => childrenOf(each).filter((c) => c.localName === name)),
      [from],
    );
export const texts = (from: Element, path: string): string[] =>
  all(from, path).map(({ textContent }) => textContent ?? '');
export function text(from: Element, path: string): string {
  const [found, ...more] = texts(from, path);
  if (found === undefined || more.length > 0) throw new Error(`${path}: ${more.length + 1} found`);
  return found;
}

function inOrder(element: Element): void {
  const name = element.localName ?? '';
  const children = childrenOf(element);
  if (children.length === 0) {
    expect(element.textContent, `${name} is empty`).not.toBe('');
    return;
  }
  const order = sequences[name]?.split(' ');
  if (!order) throw new Error(`${name} has no place in the sequences of UBL 2.1 that are used`);
  const places = children.map((child) => order.indexOf(child.localName ?? ''));
  expect(places, `${name} has something of no place in it`).not.toContain(-1);
  expect(places, `${name} is out of order`).toEqual([...places].sort((a, b) => a - b));
  for (const child of children) {
    expect(child.namespaceURI).toBe(childrenOf(child).length === 0 ? CBC : CAC);
    inOrder(child);
  }
}

/** An amount of at most two decimals, in cents. BR-DEC-01 and its like. */
function cents(from: Element, path: string): bigint {
  const said = text(from, path);
  expect(said, path).toMatch(/^-?\d+(\.\d{1,2})?$/);
  const [, sign = '', whole = '', part = ''] = /^(-?)(\d+)\.?(\d*)$/.exec(said) ?? [];
  const size = BigInt(whole) * 100n + BigInt(part.padEnd(2, '0'));
  return sign === '-' ? -size : size;
}

/** A decimal as a whole number and its power of ten. */
function scaled(decimal: string): { whole: bigint; scale: bigint } {
  expect(decimal).toMatch(/^-?\d+(\.\d+)?$/);
  const [before = '', after = ''] = decimal.split('.');
  return { whole: BigInt(before + after), scale: 10n ** BigInt(after.length) };
}

/** Half away from zero. */
function divided(by: bigint, of: bigint): bigint {
  const size = of < 0n ? -of : of;
  const rounded = (2n * size + by) / (2n * by);
  return of < 0n ? -rounded : rounded;
}

const sum = (amounts: readonly bigint[]) => amounts.reduce((total, each) => total + each, 0n);

/**
 * Holds a document to the order of UBL 2.1 and to the rules of EN 16931-1 for its figures and parties, reckoned anew
 * in whole cents from what its lines say. The rules as published with the validation artefacts of CEN/TC 434; from memory.
 */
export function keepsTheRules(xml: string): Element {
  const root = readEInvoice(xml);
  inOrder(root);
  const note = root.localName === 'CreditNote';
  expect(root.namespaceURI).toBe(`${UBL}${note ? 'CreditNote' : 'Invoice'}-2`);
  expect(text(root, 'CustomizationID')).toBe('urn:cen.eu:en16931:2017'); // BR-01
  expect(text(root, note ? 'CreditNoteTypeCode' : 'InvoiceTypeCode')).toBe(note ? '381' : '380'); // BR-04
  expect(text(root, 'ID')).not.toBe(''); // BR-02
  expect(text(root, 'IssueDate')).toMatch(/^\d{4}-\d\d-\d\d$/); // BR-03
  const currency = text(root, 'DocumentCurrencyCode'); // BR-05
  for (const amount of [...root.getElementsByTagNameNS(CBC, '*')])
    if (/Amount$/.test(amount.localName ?? ''))
      expect(amount.getAttribute('currencyID')).toBe(currency);

  const seller = 'AccountingSupplierParty/Party';
  const buyer = 'AccountingCustomerParty/Party';
  for (const party of [seller, buyer]) {
    expect(text(root, `${party}/PartyLegalEntity/RegistrationName`)).not.toBe(''); // BR-06, BR-07
    expect(text(root, `${party}/PostalAddress/Country/IdentificationCode`)).toMatch(/^[A-Z]{2}$/); // BR-09, BR-11
  }
  const schemes = all(root, `${seller}/PartyTaxScheme`);
  const vat = schemes.filter((scheme) => text(scheme, 'TaxScheme/ID') === 'VAT');
  const legal = texts(root, `${seller}/PartyLegalEntity/CompanyID`);
  expect(vat.length + legal.length).toBeGreaterThan(0); // BR-CO-26
  expect(schemes.length).toBeGreaterThan(0); // BR-S-02, BR-Z-02, BR-E-02
  for (const scheme of vat) expect(text(scheme, 'CompanyID')).toMatch(/^[A-Z]{2}/); // BR-CO-09

  const lines = all(root, note ? 'CreditNoteLine' : 'InvoiceLine');
  expect(lines.length).toBeGreaterThan(0); // BR-16
  expect(new Set(lines.map((line) => text(line, 'ID'))).size).toBe(lines.length); // BR-21
  const bases = new Map<string, bigint>();
  for (const line of lines) {
    const [quantity] = all(line, note ? 'CreditedQuantity' : 'InvoicedQuantity'); // BR-22
    expect(quantity?.getAttribute('unitCode')).toMatch(/^[A-Z0-9]{2,3}$/); // BR-23
    const many = scaled(quantity?.textContent ?? '');
    const price = scaled(text(line, 'Price/PriceAmount'));
    expect(price.whole >= 0n).toBe(true); // BR-27
    const net = cents(line, 'LineExtensionAmount'); // BR-24, BR-DEC-23
    // BT-131 is BT-129 × BT-146, in cents.
    expect(net).toBe(divided(many.scale * price.scale, many.whole * price.whole * 100n));
    expect(text(line, 'Item/Name')).not.toBe(''); // BR-25
    const tax = 'Item/ClassifiedTaxCategory';
    const [category, rate] = [text(line, `${tax}/ID`), text(line, `${tax}/Percent`)];
    expect(['S', 'Z', 'E']).toContain(category);
    expect(Number(rate) > 0).toBe(category === 'S'); // BR-S-05, BR-Z-05, BR-E-05
    bases.set(`${category} ${rate}`, (bases.get(`${category} ${rate}`) ?? 0n) + net);
  }

  const of = 'LegalMonetaryTotal';
  const lineSum = cents(root, `${of}/LineExtensionAmount`);
  expect(lineSum).toBe(sum(lines.map((line) => cents(line, 'LineExtensionAmount')))); // BR-CO-10
  const allowances = all(root, 'AllowanceCharge');
  expect(allowances).toEqual([]); // BR-CO-11 and BR-CO-12: none, so that both sums are left out
  expect(texts(root, `${of}/AllowanceTotalAmount`)).toEqual([]);
  expect(texts(root, `${of}/ChargeTotalAmount`)).toEqual([]);
  const net = cents(root, `${of}/TaxExclusiveAmount`);
  expect(net).toBe(lineSum); // BR-CO-13

  const shares = all(root, 'TaxTotal/TaxSubtotal');
  const said = new Map(
    shares.map((share) => [
      `${text(share, 'TaxCategory/ID')} ${text(share, 'TaxCategory/Percent')}`,
      share,
    ]),
  );
  expect([...said.keys()].sort()).toEqual([...bases.keys()].sort()); // BR-CO-18, BR-S-01 and its like
  for (const [key, share] of said) {
    const base = cents(share, 'TaxableAmount');
    expect(base).toBe(bases.get(key)); // BR-S-08, BR-Z-08, BR-E-08
    const rate = scaled(text(share, 'TaxCategory/Percent'));
    expect(cents(share, 'TaxAmount')).toBe(divided(100n * rate.scale, base * rate.whole)); // BR-CO-17
    const reason = texts(share, 'TaxCategory/TaxExemptionReason');
    expect(reason.length).toBe(key.startsWith('E') ? 1 : 0); // BR-E-10, BR-S-10, BR-Z-10
  }
  const tax = cents(root, 'TaxTotal/TaxAmount');
  expect(tax).toBe(sum(shares.map((share) => cents(share, 'TaxAmount')))); // BR-CO-14
  const gross = cents(root, `${of}/TaxInclusiveAmount`);
  expect(gross).toBe(net + tax); // BR-CO-15
  const paid =
    texts(root, `${of}/PrepaidAmount`).length > 0 ? cents(root, `${of}/PrepaidAmount`) : 0n;
  const due = cents(root, `${of}/PayableAmount`);
  const rounding =
    texts(root, `${of}/PayableRoundingAmount`).length > 0
      ? cents(root, `${of}/PayableRoundingAmount`)
      : 0n;
  expect(due).toBe(gross - paid + rounding); // BR-CO-16
  if (due > 0n)
    expect(texts(root, 'DueDate').length + texts(root, 'PaymentTerms/Note').length).toBeGreaterThan(
      0,
    ); // BR-CO-25
  if (note) expect(text(root, 'BillingReference/InvoiceDocumentReference/ID')).not.toBe(''); // BR-55
  return root;
}
