import { formatAmount, type Minor, nothing } from '../amount.ts';
import type { DocumentTotals, TaxShare } from '../document-totals.ts';
import { exact } from '../exact.ts';
import { counted, totalsOf } from './counted.ts';
import { exemptionReason } from './exemption-reason.ts';
import type { IssuedDocument, IssuedLine, Party, Seller } from './issued-document.ts';
import { unitCode } from './unit-codes.ts';
import { whyNotEInvoice } from './why-not.ts';

/** An element of the document: its prefixed name, and what is in it. */
export interface UblElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly content: string | readonly UblElement[];
}

const element = (
  name: string,
  content: string | readonly UblElement[],
  attributes: Readonly<Record<string, string>> = {},
): UblElement => ({ name, attributes, content });

/** None where there is nothing to say: an element is never empty. */
const maybe = (name: string, content: string | null | undefined): UblElement[] =>
  content ? [element(name, content)] : [];

/** BT-24. */
export const CUSTOMIZATION = 'urn:cen.eu:en16931:2017';

/**
 * An issued invoice (type 380) or credit note (381) as the elements of OASIS UBL 2.1, in the order of its schemas, with
 * the terms of EN 16931-1. Totals are those of `documentTotals`; every amount is decimal text from whole minor units.
 *
 * @throws RangeError where `whyNotEInvoice` has a reason
 */
export function ublTree(document: IssuedDocument): UblElement {
  const { seller, buyer } = document;
  const reasons = whyNotEInvoice(document);
  if (reasons.length > 0 || seller === null || buyer === null)
    throw new RangeError(`Cannot write document ${document.number}: ${reasons.join(' ')}`);
  const own = counted(document);
  const { credits, issuedOn, dueOn, number, notes, currency } = own;
  const totals = totalsOf(own);
  const money = (name: string, value: Minor) =>
    element(name, formatAmount(value, totals.currency), { currencyID: currency });
  const note = credits !== null;
  return element(note ? 'CreditNote' : 'Invoice', [
    element('cbc:CustomizationID', CUSTOMIZATION), // BT-24
    element('cbc:ID', number), // BT-1
    element('cbc:IssueDate', issuedOn), // BT-2
    ...(note ? [] : maybe('cbc:DueDate', dueOn)), // BT-9
    element(note ? 'cbc:CreditNoteTypeCode' : 'cbc:InvoiceTypeCode', note ? '381' : '380'), // BT-3
    ...notes.flatMap((words) => maybe('cbc:Note', words)), // BT-22
    element('cbc:DocumentCurrencyCode', currency), // BT-5
    ...(credits === null
      ? []
      : [
          // BG-3
          element('cac:BillingReference', [
            element('cac:InvoiceDocumentReference', [
              element('cbc:ID', credits.number), // BT-25
              element('cbc:IssueDate', credits.issuedOn), // BT-26
            ]),
          ]),
        ]),
    element('cac:AccountingSupplierParty', [partyOf(seller, seller)]), // BG-4
    element('cac:AccountingCustomerParty', [partyOf(buyer, null)]), // BG-7
    element('cac:PaymentTerms', [element('cbc:Note', termsOf(own))]), // BT-20
    element('cac:TaxTotal', [
      money('cbc:TaxAmount', totals.taxTotal), // BT-110
      ...totals.tax.map((share) => subtotalOf(share, exemptionReason(own), money)), // BG-23
    ]),
    element('cac:LegalMonetaryTotal', monetary(own, totals, money)), // BG-22
    ...own.lines.map((line) => lineOf(line, note, money)), // BG-25
  ]);
}

type MoneyElement = (name: string, value: Minor) => UblElement;

/** BT-20: said in words too, since a receiver may show no more than that (BR-CO-25). */
function termsOf({ credits, dueOn }: IssuedDocument): string {
  if (credits !== null)
    return `Takes back ${credits.inPart ? 'the charge for cores on ' : ''}invoice ${credits.number} of ${credits.issuedOn}; nothing is to be paid on it.`;
  return dueOn === null ? 'To be paid on receipt.' : `To be paid by ${dueOn}.`;
}

const TAX_SCHEME = element('cac:TaxScheme', [element('cbc:ID', 'VAT')]);

function partyOf(party: Party, seller: Seller | null): UblElement {
  return element('cac:Party', [
    // BG-5, BG-8
    element('cac:PostalAddress', [
      ...maybe('cbc:StreetName', party.addressLine1), // BT-35, BT-50
      ...maybe('cbc:AdditionalStreetName', party.addressLine2), // BT-36, BT-51
      ...maybe('cbc:CityName', party.city), // BT-37, BT-52
      ...maybe('cbc:PostalZone', party.postcode), // BT-38, BT-53
      element('cac:Country', maybe('cbc:IdentificationCode', party.country)), // BT-40, BT-55
    ]),
    ...(seller?.vatNumber
      ? [element('cac:PartyTaxScheme', [element('cbc:CompanyID', seller.vatNumber), TAX_SCHEME])] // BT-31
      : []),
    ...(seller?.taxNumber
      ? [
          // BT-32: a scheme other than VAT tells the two apart.
          element('cac:PartyTaxScheme', [
            element('cbc:CompanyID', seller.taxNumber),
            element('cac:TaxScheme', [element('cbc:ID', 'TAX')]),
          ]),
        ]
      : []),
    element('cac:PartyLegalEntity', [
      element('cbc:RegistrationName', party.name), // BT-27, BT-44
      ...maybe('cbc:CompanyID', seller?.registrationNumber), // BT-30
    ]),
  ]);
}

function subtotalOf(share: TaxShare, reason: string, money: MoneyElement): UblElement {
  return element('cac:TaxSubtotal', [
    money('cbc:TaxableAmount', share.base), // BT-116
    money('cbc:TaxAmount', share.amount), // BT-117
    element('cac:TaxCategory', [
      element('cbc:ID', share.category), // BT-118
      element('cbc:Percent', share.rate), // BT-119
      ...(share.category === 'E' ? maybe('cbc:TaxExemptionReason', reason) : []), // BT-120
      TAX_SCHEME,
    ]),
  ]);
}

function monetary(
  { paid, rounding = nothing }: IssuedDocument,
  totals: DocumentTotals,
  money: MoneyElement,
): UblElement[] {
  return [
    money('cbc:LineExtensionAmount', totals.lineSum), // BT-106
    money('cbc:TaxExclusiveAmount', totals.net), // BT-109
    money('cbc:TaxInclusiveAmount', totals.gross), // BT-112
    ...(paid === 0n ? [] : [money('cbc:PrepaidAmount', paid)]), // BT-113
    ...(rounding === 0n ? [] : [money('cbc:PayableRoundingAmount', rounding)]), // BT-114
    money('cbc:PayableAmount', totals.due), // BT-115
  ];
}

function lineOf(line: IssuedLine, note: boolean, money: MoneyElement): UblElement {
  const { position, title, quantity, unit, unitPrice, net, taxCategory, taxRate } = line;
  const plain = (decimal: string) => exact(decimal).toFixed();
  return element(note ? 'cac:CreditNoteLine' : 'cac:InvoiceLine', [
    element('cbc:ID', `${position}`), // BT-126
    element(note ? 'cbc:CreditedQuantity' : 'cbc:InvoicedQuantity', plain(quantity), {
      unitCode: unitCode(unit), // BT-130
    }), // BT-129
    money('cbc:LineExtensionAmount', net), // BT-131
    element('cac:Item', [
      element('cbc:Name', title), // BT-153
      element('cac:ClassifiedTaxCategory', [
        element('cbc:ID', taxCategory), // BT-151
        element('cbc:Percent', plain(taxRate)), // BT-152
        TAX_SCHEME,
      ]),
    ]),
    element('cac:Price', [
      element('cbc:PriceAmount', plain(unitPrice), money('', net).attributes), // BT-146
    ]),
  ]);
}
