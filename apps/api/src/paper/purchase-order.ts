import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dateText, dayText, decimalText, moneyText } from './figures.ts';
import { shopLines } from './parties.ts';
import { drawFacts, drawNotes, drawTitle } from './parts.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';
import { drawTable } from './table.ts';

export const PURCHASE_ORDER = `query PurchaseOrderPaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on PurchaseOrder {
    number supplier supplierEmail expectedOn note currency draftedAt state total by { name }
    lines { position quantity unitCost net part { number title unit } item { position order { number } } }
  } }
}`;

interface Purchase {
  number: number;
  supplier: string;
  supplierEmail: string;
  expectedOn: string | null;
  note: string;
  currency: string;
  draftedAt: string;
  state: string;
  total: string;
  by: { name: string };
  lines: {
    position: number;
    quantity: string;
    unitCost: string;
    net: string;
    part: { number: string; title: string; unit: string };
    item: { position: number; order: { number: number } } | null;
  }[];
}

/** What a supplier is asked for: what goes with the e-mail, or by post. */
export const purchaseOrderPaper: PaperKind = {
  of: ['PurchaseOrder'],
  papers: pages,
  async read(context, id) {
    const { node, viewer } = await ask<{ node: Purchase | null; viewer: { shop: PaperShop } }>(
      context,
      PURCHASE_ORDER,
      { id },
    );
    if (!node) throw notFound('purchase order');
    return {
      filename: `purchase-order-${node.number}`,
      print: (print) => drawPurchase(node, viewer.shop, print),
    };
  },
};

const notes = [
  'Send each part with its release certificate; without one it is not taken for fitting.',
  'Name the purchase order’s number on the delivery note, and batch or serial number of each part.',
  'Where a number is superseded or something else would be sent instead, ask before sending it.',
];

/** By our own numbers: whose aircraft it is for is nobody else's business. */
const forWork = (item: Purchase['lines'][number]['item']) =>
  item === null ? '' : `, for our order ${item.order.number}, item ${item.position}`;

function drawPurchase(purchase: Purchase, shop: PaperShop, print: Print): Promise<Buffer> {
  const { number, supplier, supplierEmail, expectedOn, note, currency, draftedAt } = purchase;
  const cancelled = purchase.state === 'cancelled';
  const sheet = new DrawingSheet({
    ...print,
    title: `Purchase order ${number}, ${supplier}`,
    block: {
      what: `Purchase order ${number}${cancelled ? ', cancelled' : ''}`,
      rows: [
        [
          { label: 'Supplier', value: supplier, share: 2 },
          { label: 'Order', value: `${number}`, figures: true },
        ],
        [
          { label: 'Ordered by', value: purchase.by.name, share: 1.4 },
          { label: 'Date', value: dayText(draftedAt, shop.timeZone), figures: true },
        ],
      ],
      ...fromShop(shop, print),
    },
  });
  const { type } = sheet;
  drawTitle(sheet, `Purchase order ${number}`, `To ${supplier}`);
  if (cancelled)
    sheet.text('Cancelled: nothing more is expected of it.', { face: 'bold', size: type.head });
  drawFacts(sheet, [
    { label: 'Supplier', lines: [supplier, ...(supplierEmail === '' ? [] : [supplierEmail])] },
    { label: 'Send to', lines: shopLines(shop) },
    {
      label: 'Expected',
      lines: [expectedOn === null ? 'please say when' : dateText(expectedOn)],
    },
  ]);
  const figure = sheet.paper === 'letter' ? mm(25) : mm(24);
  drawTable(
    sheet,
    [
      { head: 'No.', width: mm(11) },
      { head: 'Part', width: null },
      { head: 'Quantity', width: mm(22), figures: true },
      { head: 'Unit', width: mm(15) },
      { head: `Each, ${currency}`, width: figure, figures: true },
      { head: `Net, ${currency}`, width: figure, figures: true },
    ],
    [
      ...purchase.lines.map(({ position, quantity, unitCost, net, part, item }) => ({
        cells: [
          { balloon: position },
          { text: part.number, note: `${part.title}${forWork(item)}` },
          decimalText(quantity, 0),
          part.unit,
          decimalText(unitCost, 2),
          moneyText(BigInt(net), currency),
        ],
      })),
      {
        cells: [
          '',
          'Together, before tax and freight',
          '',
          '',
          '',
          moneyText(BigInt(purchase.total), currency),
        ],
        bold: true,
        outline: true,
      },
    ],
  );
  if (note !== '') {
    sheet.heading('Besides');
    sheet.text(note);
  }
  drawNotes(sheet, notes);
  return sheet.finish();
}
