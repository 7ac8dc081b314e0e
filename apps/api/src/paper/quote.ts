import { cautionsOn } from '@fairlead/airworthiness';
import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { dimensionWords, drawDimensionLine } from './dimension.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dateText, dayText, hoursText, moneyText, roundMoneyText } from './figures.ts';
import { CONTACT, contactLines, type PaperContact, shopLines } from './parties.ts';
import { drawFacts, drawNotes, drawTitle } from './parts.ts';
import { drawPromise, type PaperPromise, PROMISE } from './promise.ts';
import { firmOf, type Hours, hoursOf, type Line, moneyOf, rowsOf } from './quote-figures.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';
import { drawTable } from './table.ts';

export const QUOTE = `query QuotePaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on Quote {
    number title more state
    aircraft { registration serial model { maker name } }
    contact { ${CONTACT} }
    finding { number title meaning }
    newest {
      revision draftedAt draftedBy { name } expiresOn terms currency low likely p80 high tax
      hours { p10 p50 p80 p90 }
      withFindings { sentence findings { title sentence hoursP50 parts } }
      ${PROMISE}
      lines { position pricing limit charge title quantity unitPrice low likely p80 high
        task { id cautions } part { number unit } hours { p10 p50 p80 p90 } }
    }
  } }
}`;

export interface QuoteAnswer {
  viewer: { shop: PaperShop };
  node: {
    number: number;
    title: string;
    more: boolean;
    state: string;
    aircraft: { registration: string; serial: string; model: { maker: string; name: string } };
    contact: PaperContact;
    finding: { number: number; title: string; meaning: string } | null;
    newest: {
      revision: number;
      draftedAt: string;
      draftedBy: { name: string } | null;
      expiresOn: string;
      terms: string;
      currency: string;
      low: string;
      likely: string;
      p80: string;
      high: string;
      tax: string;
      hours: Hours;
      withFindings: {
        sentence: string;
        findings: { title: string; sentence: string; hoursP50: number; parts: string }[];
      } | null;
      promise: PaperPromise | null;
      lines: Line[];
    };
  } | null;
}

/** The newest revision of an offer. */
export const quotePaper: PaperKind = {
  of: ['Quote'],
  papers: pages,
  async read(context, id) {
    const { node, viewer } = await ask<QuoteAnswer>(context, QUOTE, { id });
    if (!node) throw notFound('quote');
    return {
      filename: `quote-${node.number}-revision-${node.newest.revision}-${node.aircraft.registration}`,
      print: (print) => drawQuote(node, viewer.shop, print),
    };
  },
};

function drawQuote(
  quote: NonNullable<QuoteAnswer['node']>,
  shop: PaperShop,
  print: Print,
): Promise<Buffer> {
  const { aircraft, contact, newest, finding } = quote;
  const { currency, lines } = newest;
  const name = `Quote ${quote.number}`;
  const sheet = new DrawingSheet({
    ...print,
    title: `${name}, revision ${newest.revision}: ${quote.title}, ${aircraft.registration}`,
    block: {
      what: `${name}, ${quote.title}`,
      rows: [
        [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Number', value: `${quote.number}`, figures: true },
          { label: 'Revision', value: `${newest.revision}`, figures: true },
        ],
        [
          { label: 'Drawn by', value: newest.draftedBy?.name ?? 'the program' },
          { label: 'Date', value: dayText(newest.draftedAt, shop.timeZone), figures: true },
          { label: 'Holds until', value: dateText(newest.expiresOn), figures: true },
        ],
        [{ label: 'For', value: contact.name, share: 2 }],
      ],
      ...fromShop(shop, print),
    },
  });
  const { type } = sheet;

  drawTitle(sheet, name, quote.title);
  drawFacts(sheet, [
    { label: 'From', lines: shopLines(shop) },
    {
      label: 'For',
      lines: contactLines(contact),
    },
    {
      label: 'Aircraft',
      lines: [
        aircraft.registration,
        `${aircraft.model.maker} ${aircraft.model.name}`,
        `serial ${aircraft.serial}`,
      ],
    },
  ]);
  if (finding) {
    sheet.text(`For finding ${finding.number}: ${finding.title}. ${finding.meaning}`);
    sheet.space(type.body * 0.6);
  }
  drawTable(
    sheet,
    [
      { head: '', width: type.body * 2.2 },
      { head: 'What is offered', width: null },
      { head: 'Hours', width: mm(42) },
      { head: `Price, ${currency}, net`, width: mm(48) },
    ],
    rowsOf(lines, currency, newest.hours),
  );
  // Asking for more has no estimate and no hours of its own: its terms say how much.
  if (!quote.more) drawTotal(sheet, newest);
  if (newest.withFindings) drawFound(sheet, newest.withFindings, newest.currency);
  if (newest.promise) drawPromise(sheet, newest.promise);
  if (newest.terms !== '') {
    sheet.heading('Terms');
    sheet.text(newest.terms);
  }
  const hazards = [...new Set(lines.flatMap(({ task }) => task?.cautions ?? []))];
  drawNotes(sheet, [
    `The offer holds until ${dateText(newest.expiresOn)}. Nothing beyond it is done without your word.`,
    ...(quote.more
      ? []
      : [
          'Hours and prices that are not firm are estimates: the stroke is the middle, as likely over as under; the ends are what one in ten jobs stays under and nine in ten stay under; the triangle is what eight in ten stay under.',
          firmOf(lines) === BigInt(newest.high)
            ? 'The hours are for planning; the price does not change with them.'
            : 'The total comes from the sum of the hours: adding up the upper ends of the lines would overstate it.',
        ]),
    ...cautionsOn('quote').map(({ text }) => text),
    ...(hazards.length === 0
      ? []
      : [
          'Work on this list has hazards of its own; they are on its job cards and are read before it begins.',
        ]),
  ]);
  return sheet.finish();
}

/** What tends to be found, and what the whole then comes to: foretold, not offered. */
function drawFound(
  sheet: DrawingSheet,
  { sentence, findings }: NonNullable<NonNullable<QuoteAnswer['node']>['newest']['withFindings']>,
  currency: string,
): void {
  sheet.heading('What tends to be found in it');
  sheet.text(sentence);
  sheet.space(sheet.type.body * 0.4);
  for (const { title, sentence: often, hoursP50, parts } of findings) {
    const priced =
      parts === '0' ? '' : ` and parts of ${moneyText(BigInt(parts), currency)} ${currency}`;
    sheet.text(`${title}. ${often} It takes about ${hoursText(hoursP50)} h${priced}.`);
  }
}

/** The total as one long dimension, and its figures beneath. */
function drawTotal(sheet: DrawingSheet, newest: NonNullable<QuoteAnswer['node']>['newest']): void {
  const { currency, lines } = newest;
  const { type } = sheet;
  const [firm, likely, p80, high, tax] = [
    firmOf(lines),
    BigInt(newest.likely),
    BigInt(newest.p80),
    BigInt(newest.high),
    BigInt(newest.tax),
  ];
  const total = moneyOf(newest, currency);
  sheet.need(type.body * 16);
  sheet.heading('Total, net');
  sheet.text(`The whole: ${dimensionWords(total)}`, { face: 'figures' });
  sheet.y += type.body * 1.3;
  const line = {
    x: sheet.left,
    y: sheet.y,
    width: sheet.width,
    most: Number(high) * 1.02,
    mark: type.body * 0.55,
  };
  sheet.decorate((doc) => drawDimensionLine(doc, total, line));
  sheet.y += type.body * 1.2;
  const isFirm = firm === high;
  const figures: [string, string][] = isFirm
    ? [['Firm', moneyText(high, currency)]]
    : [
        ['Firm', moneyText(firm, currency)],
        ['As likely over as under', roundMoneyText(likely, currency)],
        ['Eight in ten come out under', roundMoneyText(p80, currency)],
        ['Nine in ten come out under', roundMoneyText(high, currency)],
      ];
  drawTable(
    sheet,
    [
      { head: 'Of the whole', width: null },
      { head: currency, width: mm(40), figures: true },
    ],
    [
      ...figures.map(([words, amount]) => ({ cells: [words, amount] })),
      { cells: ['Tax on the likely amount', moneyText(tax, currency)], outline: true },
      { cells: ['Likely, with tax', moneyText(likely + tax, currency)], bold: true },
    ],
  );
  sheet.text(`All its work together: ${dimensionWords(hoursOf(newest.hours))}`, {
    size: type.body,
  });
}
