import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dateText, dayText, minus, moneyText } from './figures.ts';
import { type Amounts, chainOf, exemptWords, invoiceRows, type Step } from './invoice-figures.ts';
import { contactLines, PARTIES, type PaperContact, sellerLines } from './parties.ts';
import { drawFacts, drawNotes, drawTitle } from './parts.ts';
import {
  drawPictures,
  FINDING_PHOTOS,
  type FindingPhotos,
  type KeptPhoto,
  loadPictures,
  type Picture,
  photoFilesOf,
  photosOfFinding,
} from './pictures.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';
import { drawTable } from './table.ts';

export const INVOICE = `query InvoicePaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on Invoice {
    number inPart state currency net tax rounding gross agreed beyond paid owed quoted draftedAt issuedAt dueOn chainHash
    contact { email phone } ${PARTIES}
    payerShare { reference }
    sale { soldOn buyer { name } }
    credits { number }
    creditNotes { number inPart }
    lines { id position title quantity unit unitPrice net taxCode taxRate taxReason note }
    difference { kind title amount }
    payments { amount method paidAt deposit { number } }
    order { number title aircraft { registration serial model { maker name } }
      findings { number title words meaning class ${FINDING_PHOTOS} } }
  } }
}`;

interface Invoice extends Amounts {
  number: number | null;
  state: 'draft' | 'issued' | 'credited';
  agreed: string;
  beyond: string;
  paid: string;
  owed: string;
  quoted: string | null;
  draftedAt: string;
  issuedAt: string | null;
  dueOn: string | null;
  chainHash: string | null;
  contact: Pick<PaperContact, 'email' | 'phone'>;
  seller: Omit<PaperShop, 'place' | 'timeZone' | 'currency'>;
  buyer: Pick<PaperContact, 'name' | 'postalAddress'>;
  payerShare: { reference: string } | null;
  sale: { soldOn: string; buyer: { name: string } } | null;
  credits: { number: number } | null;
  inPart: boolean;
  creditNotes: { number: number | null; inPart: boolean }[];
  difference: Step[];
  payments: {
    amount: string;
    method: string;
    paidAt: string;
    deposit: { number: number } | null;
  }[];
  order: {
    number: number;
    title: string;
    aircraft: { registration: string; serial: string; model: { maker: string; name: string } };
    findings: (FindingPhotos & { words: string; meaning: string; class: string })[];
  };
}

/** An invoice with what was found, and why it differs from the quote. */
export const invoicePaper: PaperKind = {
  of: ['Invoice'],
  papers: pages,
  async read(context, id) {
    const answer = await ask<{ node: Invoice | null; viewer: { shop: PaperShop } }>(
      context,
      INVOICE,
      { id },
    );
    const { node, viewer } = answer;
    if (!node) throw notFound('invoice');
    const files = await photoFilesOf(context, node.order.findings.flatMap(photosOfFinding));
    return {
      filename: `${nameOf(node).toLowerCase().replaceAll(' ', '-')}-${node.order.aircraft.registration}`,
      print: (print) => drawInvoice(node, viewer.shop, print, files),
    };
  },
};

const nameOf = ({ number, credits }: Pick<Invoice, 'number' | 'credits'>) =>
  number === null ? 'Draft invoice' : `${credits ? 'Credit note' : 'Invoice'} ${number}`;

async function drawInvoice(
  invoice: Invoice,
  shop: PaperShop,
  print: Print,
  files: ReadonlyMap<string, KeptPhoto>,
): Promise<Buffer> {
  const { order, contact, currency } = invoice;
  const { aircraft } = order;
  const name = nameOf(invoice);
  const findings = invoice.credits ? [] : order.findings;
  const pictures = await Promise.all(
    findings.map((finding) => loadPictures(print.uploadsDir, files, photosOfFinding(finding))),
  );
  const day = dayText(invoice.issuedAt ?? invoice.draftedAt, shop.timeZone);
  const sheet = new DrawingSheet({
    ...print,
    title: `${name}: ${order.title}, ${aircraft.registration}`,
    block: {
      what: `${name}, ${order.title}`,
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Order', value: `${order.number}`, figures: true },
          { label: 'State', value: invoice.state },
        ],
        [
          { label: invoice.issuedAt ? 'Issued' : 'Drafted', value: day, figures: true },
          { label: 'Due', value: invoice.dueOn ? dateText(invoice.dueOn) : '', figures: true },
        ],
      ],
      hash: invoice.chainHash,
      ...fromShop(shop, print),
    },
  });
  const { type } = sheet;

  drawTitle(sheet, name, order.title);
  drawFacts(sheet, [
    { label: 'From', lines: sellerLines({ ...invoice.seller, place: shop.place }) },
    {
      label: 'To',
      lines: contactLines({ ...contact, ...invoice.buyer }),
    },
    {
      label: 'For',
      lines: [
        `${aircraft.registration}, order ${order.number}`,
        `${aircraft.model.maker} ${aircraft.model.name}, serial ${aircraft.serial}`,
      ],
    },
  ]);
  if (invoice.state === 'draft')
    sheet.text('A draft: it has no number, can still be changed, and asks for no payment.', {
      face: 'bold',
    });
  if (invoice.credits)
    sheet.text(
      invoice.inPart
        ? `Gives back the charge for old parts that came, on invoice ${invoice.credits.number}, which stands otherwise.`
        : `Takes back invoice ${invoice.credits.number}.`,
      { face: 'bold' },
    );
  if (invoice.sale)
    sheet.text(
      `Sold on ${dateText(invoice.sale.soldOn)}: this is what was done until then. What follows is agreed with the new owner.`,
      { face: 'bold' },
    );
  if (invoice.payerShare)
    sheet.text(
      `A part of what order ${order.number} comes to${invoice.payerShare.reference ? `, ${invoice.payerShare.reference}` : ''}. The rest is billed to others.`,
      { face: 'bold' },
    );
  for (const { number, inPart } of invoice.creditNotes)
    sheet.text(
      inPart
        ? `The charge for old parts that came was given back by credit note ${number}.`
        : `Taken back by credit note ${number}.`,
      { face: 'bold' },
    );
  drawTable(
    sheet,
    [
      { head: '', width: type.body * 2.2 },
      { head: invoice.credits ? 'What is taken back' : 'What is billed', width: null },
      { head: 'Quantity', width: mm(22), figures: true },
      { head: `Each, ${currency}`, width: mm(24), figures: true },
      { head: 'Tax', width: mm(16), figures: true },
      { head: currency, width: mm(26), figures: true },
    ],
    invoiceRows(invoice),
  );
  for (const words of exemptWords(invoice.lines)) sheet.text(words);
  drawAccount(sheet, invoice, shop.timeZone);
  drawDifference(sheet, invoice);
  drawFindings(sheet, findings, pictures);
  drawNotes(sheet, [
    'An issued invoice is never changed: a mistake is taken back whole by a credit note.',
    'Hours are billed in the steps of the shop’s rule; tax is rounded once for each category and rate.',
    'Letters beside a rate are the tax categories of EN 16931: S standard rate, Z zero rate, E exempt.',
    'Approval for return to service is in the record entry and nowhere on this sheet.',
  ]);
  return sheet.finish();
}

/** What was agreed and what came in, to the cent. */
function drawAccount(sheet: DrawingSheet, invoice: Invoice, timeZone: string): void {
  const { currency, payments } = invoice;
  const money = (amount: string) => moneyText(BigInt(amount), currency);
  sheet.heading('The account', sheet.type.body * 12);
  drawTable(
    sheet,
    [
      { head: 'What', width: null },
      { head: currency, width: mm(26), figures: true },
    ],
    [
      ...(invoice.credits
        ? []
        : [
            { cells: ['Agreed up to, net', money(invoice.agreed)] },
            { cells: ['Worked beyond authority, not billed, net', money(invoice.beyond)] },
          ]),
      ...payments.map(({ amount, method, paidAt, deposit }) => ({
        cells: [
          `${BigInt(amount) >= 0n ? 'Paid' : deposit ? 'Freed' : 'Paid back'} ${dayText(paidAt, timeZone)}, ${method}`,
          money(amount),
        ],
      })),
      {
        cells: [
          BigInt(invoice.owed) < 0n ? 'To be paid back' : 'Still owed, with tax',
          money(invoice.owed),
        ],
        bold: true,
        outline: true,
      },
    ],
  );
}

/** From the quote to this invoice: a chain that closes exactly, or that says it does not. */
function drawDifference(sheet: DrawingSheet, invoice: Invoice): void {
  const chain = chainOf(invoice);
  if (!chain || invoice.quoted === null) return;
  const { currency, net, quoted } = invoice;
  const signed = (amount: bigint) => {
    const text = moneyText(amount, currency);
    return text.startsWith(minus) ? text : `+${text}`;
  };
  const most = [BigInt(quoted), ...chain.links.map(({ value }) => value)].reduce((a, b) =>
    a > b ? a : b,
  );
  const link = (from: bigint, to: bigint) => ({ link: { from, to, most } });
  sheet.heading('From the quote to this invoice, net', sheet.type.body * 10);
  if (!chain.closes) {
    sheet.text(
      'The steps from the quote do not add up to what is billed: this is a fault of the program. Ask the shop.',
      { face: 'bold' },
    );
    return;
  }
  drawTable(
    sheet,
    [
      { head: 'Why', width: null },
      { head: '', width: mm(44) },
      { head: 'Change', width: mm(30), figures: true },
      { head: currency, width: mm(30), figures: true },
    ],
    [
      {
        cells: ['quoted', link(0n, BigInt(quoted)), '', moneyText(BigInt(quoted), currency)],
      },
      ...chain.links.map(({ words, change, value }) => ({
        cells: [words, link(value - change, value), signed(change), moneyText(value, currency)],
      })),
      {
        cells: ['billed, net', link(0n, BigInt(net)), '', moneyText(BigInt(net), currency)],
        bold: true,
        outline: true,
      },
    ],
  );
}

/** What was found, in the words of who found it, with its photos. */
function drawFindings(
  sheet: DrawingSheet,
  findings: Invoice['order']['findings'],
  pictures: readonly (readonly Picture[])[],
): void {
  if (findings.length === 0) return;
  const { type } = sheet;
  sheet.heading('What was found', pictures[0]?.length ? mm(76) : type.body * 6);
  for (const [index, { number, title, words, meaning, class: kind }] of findings.entries()) {
    const own = pictures[index] ?? [];
    sheet.text(`Finding ${number}: ${title}, ${kind}`, {
      face: 'bold',
      keep: own.length > 0 ? mm(72) : type.body * 2,
    });
    if (words !== '') sheet.text(words);
    if (meaning !== '') sheet.text(`What it means: ${meaning}`);
    sheet.y += type.body * 0.5;
    drawPictures(sheet, own);
  }
}
