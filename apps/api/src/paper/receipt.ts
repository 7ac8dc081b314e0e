import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dayText, moneyText } from './figures.ts';
import { CONTACT, contactLines, type PaperContact, sellerLines } from './parties.ts';
import { drawFacts, drawNotes, drawTitle } from './parts.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';
import { drawTable } from './table.ts';

export const RECEIPT = `query ReceiptPaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on Deposit {
    number currency amount method paidAt left
    contact { ${CONTACT} }
    order { number title aircraft { registration } }
    setAgainst { amount paidAt invoice { number } }
    refunds { amount method paidAt }
  } }
}`;

interface Receipt {
  number: number;
  currency: string;
  amount: string;
  method: string;
  paidAt: string;
  left: string;
  contact: PaperContact;
  order: { number: number; title: string; aircraft: { registration: string } };
  setAgainst: { amount: string; paidAt: string; invoice: { number: number | null } }[];
  refunds: { amount: string; method: string; paidAt: string }[];
}

/** The receipt of a deposit, and what became of it. */
export const receiptPaper: PaperKind = {
  of: ['Deposit'],
  papers: pages,
  async read(context: Context, id: string) {
    const { node, viewer } = await ask<{ node: Receipt | null; viewer: { shop: PaperShop } }>(
      context,
      RECEIPT,
      { id },
    );
    if (!node) throw notFound('deposit');
    return {
      filename: `receipt-${node.number}-${node.order.aircraft.registration}`,
      print: (print) => drawReceipt(node, viewer.shop, print),
    };
  },
};

function drawReceipt(receipt: Receipt, shop: PaperShop, print: Print): Promise<Buffer> {
  const { number, currency, contact, order } = receipt;
  const money = (amount: bigint) => moneyText(amount, currency);
  const day = (at: string) => dayText(at, shop.timeZone);
  const job = `${order.aircraft.registration}, order ${order.number}`;
  const sheet = new DrawingSheet({
    ...print,
    title: `Receipt ${number}: deposit for ${job}`,
    block: {
      what: `Receipt ${number}, deposit`,
      rows: [
        [
          { label: 'Aircraft', value: order.aircraft.registration, figures: true },
          { label: 'Order', value: `${order.number}`, figures: true },
          { label: 'Taken', value: day(receipt.paidAt), figures: true },
        ],
      ],
      ...fromShop(shop, print),
    },
  });
  drawTitle(sheet, `Receipt ${number}`, `Deposit for ${order.title}`);
  drawFacts(sheet, [
    { label: 'Received by', lines: sellerLines(shop) },
    {
      label: 'From',
      lines: contactLines(contact),
    },
    { label: 'For', lines: [job, order.title] },
  ]);
  drawTable(
    sheet,
    [
      { head: 'What', width: null },
      { head: currency, width: mm(30), figures: true },
    ],
    [
      {
        cells: [
          `Received ${day(receipt.paidAt)}, ${receipt.method}`,
          money(BigInt(receipt.amount)),
        ],
      },
      ...receipt.setAgainst.map(({ amount, paidAt, invoice }) => ({
        cells: [
          `${BigInt(amount) < 0n ? 'Freed from' : 'Set against'} invoice ${invoice.number}, ${day(paidAt)}`,
          money(-BigInt(amount)),
        ],
      })),
      ...receipt.refunds.map(({ amount, method, paidAt }) => ({
        cells: [`Paid back ${day(paidAt)}, ${method}`, money(-BigInt(amount))],
      })),
      { cells: ['Left', money(BigInt(receipt.left))], bold: true, outline: true },
    ],
  );
  drawNotes(sheet, [
    'A deposit is set against the invoice of its order when that is issued; what is left over is paid back.',
    'This receipt is no invoice and shows no tax.',
  ]);
  return sheet.finish();
}
