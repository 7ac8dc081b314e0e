import { cautionsOn } from '@fairlead/airworthiness';
import type { Context } from '../context.ts';
import { notFound } from '../errors.ts';
import { ask, type PaperShop, SHOP } from './ask.ts';
import { fromShop, type PaperKind, type Print, pages } from './document.ts';
import { dayText } from './figures.ts';
import { drawNotes, drawTitle } from './parts.ts';
import { DrawingSheet } from './sheet.ts';
import { type Cell, drawTable } from './table.ts';

export const STATUS = `query StatusPaper($id: ID!) {
  ${SHOP}
  node(id: $id) { ... on Aircraft {
    registration serial model { maker name }
    statusSheet { paragraph title note rows { what status last next } }
  } }
}`;

interface Status {
  registration: string;
  serial: string;
  model: { maker: string; name: string };
  statusSheet: {
    paragraph: string;
    title: string;
    note: string;
    rows: { what: string; status: string; last: string; next: string }[];
  }[];
}

/** The items of 14 CFR 91.417(a)(2) of one aircraft, which go with it when it is sold (91.419). */
export const statusPaper: PaperKind = {
  of: ['Aircraft'],
  papers: pages,
  async read(context: Context, id: string) {
    const { node, viewer } = await ask<{ node: Status | null; viewer: { shop: PaperShop } }>(
      context,
      STATUS,
      { id },
    );
    if (!node) throw notFound('aircraft');
    return {
      filename: `status-${node.registration}`,
      print: (print) => drawStatus(node, viewer.shop, print),
    };
  },
};

function drawStatus(status: Status, shop: PaperShop, print: Print): Promise<Buffer> {
  const { registration, serial, model, statusSheet } = status;
  const date = dayText(print.at, shop.timeZone);
  const sheet = new DrawingSheet({
    ...print,
    title: `Status of the records, ${registration}, ${date}`,
    block: {
      what: 'Status of the records, 14 CFR 91.417(a)(2)',
      rows: [
        [
          { label: 'Aircraft', value: registration, figures: true },
          { label: 'Serial', value: serial, figures: true },
          { label: 'Date', value: date, figures: true },
        ],
        [{ label: 'Type', value: `${model.maker} ${model.name}`, share: 2 }],
      ],
      ...fromShop(shop, print),
    },
  });
  drawTitle(sheet, 'Status of the records', `${registration}, ${model.maker} ${model.name}`);
  for (const { paragraph, title, note, rows } of statusSheet) {
    sheet.heading(`${title}, ${paragraph}`);
    if (rows.length > 0) {
      const timed = rows.some(({ last, next }) => last !== '' || next !== '');
      const width = sheet.width;
      drawTable(
        sheet,
        [
          { head: 'What', width: null },
          { head: timed ? 'Status' : 'Hours', width: width * 0.18 },
          ...(timed
            ? [
                { head: 'Last', width: width * 0.27 },
                { head: 'Next', width: width * 0.22 },
              ]
            : []),
        ],
        rows.map(({ what, status: stands, last, next }) => ({
          cells: [what, stands, ...(timed ? [last, next] : [])].map(small),
        })),
      );
    }
    sheet.text(note.charAt(0).toUpperCase() + note.slice(1), { size: sheet.type.small });
  }
  drawNotes(
    sheet,
    cautionsOn('due_list').map(({ text }) => text),
  );
  return sheet.finish();
}

/** In small type: what goes with the aircraft is to stand on one page (14 CFR 91.417(b)(2)). */
const small = (note: string): Cell => ({ text: '', note });
