import { formatAmount } from '../amount.ts';
import { currency, isCurrency, minorUnits } from '../currency.ts';
import { exact } from '../exact.ts';
import { lineNet } from '../line-net.ts';
import { counted, isWritten, totalsOf } from './counted.ts';
import { hasVatPrefix, isCountry } from './countries.ts';
import { exemptionReason } from './exemption-reason.ts';
import type { IssuedDocument, IssuedLine, Party, Seller } from './issued-document.ts';

/**
 * Why a document cannot be written as an e-invoice to EN 16931, one sentence a reason; none where it can. The rule of
 * the standard is named beside each.
 */
export function whyNotEInvoice(document: IssuedDocument): string[] {
  const { currency: code, seller, buyer } = document;
  if (!isCurrency(code) || minorUnits[code] !== 2)
    return [
      `It is in ${code}, which does not have two decimals: an e-invoice has amounts with two (EN 16931, BR-DEC).`,
    ];
  if (seller === null || buyer === null)
    return [
      'It was issued before the addresses of the shop and the payer were kept with an invoice (EN 16931, BG-5 and BG-8).',
    ];
  const lines = counted(document).lines;
  const reasons = [
    ...whyNotSeller(seller, lines),
    ...whyNotAddress(buyer, `the payer, ${buyer.name}`, 'BG-8'),
    ...(lines.length === 0 ? ['It has no line (EN 16931, BR-16).'] : []),
    ...lines.flatMap((line) => whyNotLine(line, code)),
  ];
  return reasons.length > 0 ? reasons : whyNotTotals(counted(document));
}

function whyNotAddress(party: Party, whose: string, group: string): string[] {
  const { name, addressLine1, city, country } = party;
  const lacks = [
    ...(name.trim() === '' ? ['a name'] : []),
    ...(addressLine1 ? [] : ['a first line of the address']),
    ...(city ? [] : ['a city']),
    ...(country && isCountry(country) ? [] : ['a country of ISO 3166-1']),
  ];
  return lacks.length === 0
    ? []
    : [`It needs of ${whose}: ${lacks.join(', ')} (EN 16931, ${group}).`];
}

function whyNotSeller(seller: Seller, lines: readonly IssuedLine[]): string[] {
  const { vatNumber, taxNumber, registrationNumber } = seller;
  return [
    ...whyNotAddress(seller, 'the shop', 'BG-5'),
    ...(registrationNumber || vatNumber
      ? []
      : ['It needs the number of the shop’s legal registration or VAT (EN 16931, BR-CO-26).']),
    ...(vatNumber || taxNumber
      ? []
      : ['It needs the shop’s VAT number or other tax registration (EN 16931, BR-S-02).']),
    ...(vatNumber && !hasVatPrefix(vatNumber)
      ? [
          `The shop’s VAT number is ${vatNumber}: it needs its country’s two letters before it (EN 16931, BR-CO-09).`,
        ]
      : []),
    ...(exemptionReason({ lines, seller }) === '' &&
    lines.some(({ taxCategory }) => taxCategory === 'E')
      ? ['It needs the reason why category E is not taxed (EN 16931, BR-E-10).']
      : []),
  ];
}

function whyNotLine(line: IssuedLine, code: string): string[] {
  const { position, title, quantity, unitPrice, net, taxCategory, taxRate } = line;
  const known = currency(code);
  const rated = !exact(taxRate, 'tax rate').isZero();
  const worth = lineNet({ quantity, unitPrice }, known);
  return [
    ...(title.trim() === '' ? [`Line ${position} has no title (EN 16931, BR-25).`] : []),
    ...(isWritten(taxCategory)
      ? []
      : [`Line ${position} is of tax category ${taxCategory}: S, Z and E can be written.`]),
    ...(taxCategory === 'S' && !rated
      ? [
          `Line ${position} is of tax category S at 0 %: its rate is above 0 (EN 16931, BR-S-05); Z is a rate of zero.`,
        ]
      : []),
    ...(taxCategory !== 'S' && isWritten(taxCategory) && rated
      ? [
          `Line ${position} is of tax category ${taxCategory} at ${taxRate} %: its rate is 0 (EN 16931, BR-${taxCategory}-05).`,
        ]
      : []),
    ...(exact(unitPrice, 'unit price').lt(0)
      ? [`Line ${position} has a price of ${unitPrice}: a price is 0 or more (EN 16931, BR-27).`]
      : []),
    ...(worth === net
      ? []
      : [
          `Line ${position} says ${formatAmount(net, known)}, and ${quantity} at ${unitPrice} is ${formatAmount(worth, known)}.`,
        ]),
  ];
}

/** What the books say must be what EN 16931 makes of the lines (BR-CO-13 to BR-CO-15). */
function whyNotTotals(document: IssuedDocument): string[] {
  const totals = totalsOf(document);
  return totals.net === document.net &&
    totals.taxTotal === document.tax &&
    totals.gross + (document.rounding ?? 0n) === document.gross
    ? []
    : [
        `It says ${formatAmount(document.gross, totals.currency)} with tax, and its lines come to ${formatAmount(totals.gross, totals.currency)} (EN 16931, BR-CO-15).`,
      ];
}
