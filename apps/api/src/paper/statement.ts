import type { Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dateText, moneyText } from './figures.ts';
import { CONTACT, contactLines, type PaperContact, sellerLines } from './parties.ts';
import { drawFacts, drawNotes, drawTitle } from './parts.ts';
import { DrawingSheet } from './sheet.ts';
import { mm } from './sizes.ts';
import { drawTable } from './table.ts';

export const STATEMENT = `query StatementPaper($id: ID!, $from: Date, $until: Date) {
  ${SHOP}
  node(id: $id) { ... on Contact {
    ${CONTACT}
    statement(from: $from, until: $until) {
      currency from until opening closing
      entries { on words amount balance }
      account { ages { notDue to30 to60 to90 over90 total } held toPayBack balance }
    }
  } }
}`;

interface Stated extends PaperContact {
  statement: {
    currency: string;
    from: string;
    until: string;
    opening: string;
    closing: string;
    entries: { on: string; words: string; amount: string; balance: string }[];
    account: {
      ages: Record<'notDue' | 'to30' | 'to60' | 'to90' | 'over90' | 'total', string>;
      held: string;
      toPayBack: string;
      balance: string;
    };
  };
}

/** A day of the address: left out, or YYYY-MM-DD. The schema says whether there is such a day. */
function dayAsked(given: unknown, field: string): string | null {
  if (given === undefined) return null;
  if (
    typeof given === 'string' &&
    /^\d{4}-\d\d-\d\d$/.test(given) &&
    !Number.isNaN(Date.parse(given))
  )
    return given;
  throw new Refused(
    'BAD_INPUT',
    `${field} is "${String(given).slice(0, 40)}": needed is a day, such as 2031-05-04.`,
    field,
  );
}

/** A payer's statement of account between two days, `?from=&until=`. */
export const statementPaper: PaperKind = {
  of: ['Contact'],
  papers: pages,
  async read(context: Context, id: string, query = {}) {
    const [from, until] = [dayAsked(query['from'], 'from'), dayAsked(query['until'], 'until')];
    const { node, viewer } = await ask<{ node: Stated | null; viewer: { shop: PaperShop } }>(
      context,
      STATEMENT,
      { id, from, until },
    );
    if (!node) throw notFound('contact');
    return {
      filename: `statement-${node.name}-${node.statement.until}`,
      print: (print) => drawStatement(node, viewer.shop, print),
    };
  },
};

function drawStatement(stated: Stated, shop: PaperShop, print: Print): Promise<Buffer> {
  const { name, statement } = stated;
  const { currency, from, until, account } = statement;
  const money = (amount: string) => moneyText(BigInt(amount), currency);
  const days = `${dateText(from)} to ${dateText(until)}`;
  const sheet = new DrawingSheet({
    ...print,
    title: `Statement of account, ${name}, ${days}`,
    block: {
      what: 'Statement of account',
      rows: [
        [
          { label: 'From', value: dateText(from), figures: true },
          { label: 'Until', value: dateText(until), figures: true },
          { label: `Balance, ${currency}`, value: money(statement.closing), figures: true },
        ],
        [{ label: 'For', value: name, share: 2 }],
      ],
      ...fromShop(shop, print),
    },
  });
  drawTitle(sheet, 'Statement of account', days);
  drawFacts(sheet, [
    { label: 'From', lines: sellerLines(shop) },
    { label: 'For', lines: contactLines(stated) },
  ]);
  drawTable(
    sheet,
    [
      { head: 'Day', width: mm(24), figures: true },
      { head: 'What', width: null },
      { head: currency, width: mm(28), figures: true },
      { head: 'Balance', width: mm(28), figures: true },
    ],
    [
      { cells: [dateText(from), 'Brought forward', '', money(statement.opening)] },
      ...statement.entries.map(({ on, words, amount, balance }) => ({
        cells: [dateText(on), words, amount === '0' ? '' : money(amount), money(balance)],
      })),
      {
        cells: [dateText(until), 'Balance', '', money(statement.closing)],
        bold: true,
        outline: true,
      },
    ],
  );
  const { ages } = account;
  sheet.heading('What is owed on the day of printing, by days past its day', sheet.type.body * 10);
  drawTable(
    sheet,
    [
      ...['Not due', '1 to 30', '31 to 60', '61 to 90', 'Over 90'].map((head) => ({
        head,
        width: sheet.width / 6,
        figures: true,
      })),
      { head: `Owed, ${currency}`, width: null, figures: true },
    ],
    [
      {
        cells: [
          ...[ages.notDue, ages.to30, ages.to60, ages.to90, ages.over90].map(money),
          money(ages.total),
        ],
        bold: true,
      },
    ],
  );
  drawNotes(sheet, [
    'Above 0 is owed to the shop; below 0 the payer has with it.',
    ...(account.held === '0'
      ? []
      : [`Deposits held, not set against an invoice yet: ${money(account.held)} ${currency}.`]),
    ...(account.toPayBack === '0'
      ? []
      : [`To be paid back on invoices: ${money(account.toPayBack)} ${currency}.`]),
    'A deposit counts once: when it came in. Set against an invoice it moves nothing on the same account.',
  ]);
  return sheet.finish();
}
