import type { Pen } from './pen.ts';
import { mm, papers } from './sizes.ts';
import { legible } from './typeface.ts';

export interface BlockCell {
  label: string;
  value: string;
  /** In the face for figures. */
  figures?: boolean;
  /** Share of its row; 1 unless said otherwise. */
  share?: number;
}

/** What a sheet says of itself, bottom right. The page's number is added to the last row. */
export interface TitleBlock {
  what: string;
  rows: readonly (readonly BlockCell[])[];
  /** Hash of its link in the shop's chain; null where nothing is chained yet. */
  hash?: string | null;
  /** Who hands it out: written beside the block, or in it where there is no room beside. */
  shop: { name: string; place: string };
  /** One line under the shop: when it was printed. */
  printed: string;
}

const narrow = (sheet: Pen) => sheet.paper === 'sheet';
const blockWidth = (sheet: Pen) => (narrow(sheet) ? sheet.width : mm(122));
const rowHeight = (sheet: Pen) => sheet.type.label + sheet.type.body * 1.9;
const whatLook = (sheet: Pen) => ({ face: 'bold', size: sheet.type.head, leading: 1.3 }) as const;
const inEights = (hash: string) => hash.replace(/(.{8})(?=.)/g, '$1 ');

function whatLines(sheet: Pen, { what }: TitleBlock): string[] {
  const lines = sheet.wrap(what, blockWidth(sheet) - sheet.type.body * 1.4, whatLook(sheet));
  return lines.length <= 2 ? lines : [lines[0] ?? '', `${(lines[1] ?? '').slice(0, -1)}…`];
}
const whatHeight = (sheet: Pen, block: TitleBlock) =>
  whatLines(sheet, block).length * sheet.lineHeight(whatLook(sheet)) + sheet.type.body * 0.9;

export function titleBlockHeight(sheet: Pen, block: TitleBlock): number {
  return (
    whatHeight(sheet, block) + rowHeight(sheet) * (block.rows.length + (block.hash == null ? 0 : 1))
  );
}

/** Cuts a line so that it stays in its cell; the whole of it stands in the document above. */
function fitted(
  sheet: Pen,
  text: string,
  width: number,
  look: { face: 'words' | 'figures' | 'bold'; size: number },
) {
  let line = legible(text);
  if (sheet.measure(line, look) <= width) return line;
  while (line.length > 1 && sheet.measure(`${line}…`, look) > width) line = line.slice(0, -1);
  return `${line.trimEnd()}…`;
}

/**
 * Draws frame and title block on the page that the sheet is at. On the first page the block is part of
 * what is read; on those that follow it repeats itself, and is marked so.
 */
export function drawTitleBlock(
  sheet: Pen,
  block: TitleBlock,
  { page, of }: { page: number; of: number },
): void {
  const { type } = sheet;
  const { widthMm, heightMm, edgeMm } = papers[sheet.paper];
  const [edge, wide, high] = [mm(edgeMm), mm(widthMm), mm(heightMm)];
  const gap = mm(narrow(sheet) ? 0.8 : 1.4);
  const [right, bottom] = [wide - edge, high - edge];
  const left = narrow(sheet) ? edge : right - blockWidth(sheet);
  const top = bottom - titleBlockHeight(sheet, block);
  const whatBottom = top + whatHeight(sheet, block);
  const height = rowHeight(sheet);
  const pad = type.body * 0.7;

  const rows = block.rows.map((row, index) =>
    index < block.rows.length - 1
      ? row
      : [...row, { label: 'Page', value: `${page} of ${of}`, figures: true }],
  );
  const placed = rows.flatMap((row, index) => {
    const shares = row.reduce((sum, { share = 1 }) => sum + share, 0);
    let x = left;
    return row.map((cell) => {
      const width = ((right - left) * (cell.share ?? 1)) / shares;
      x += width;
      return { cell, x: x - width, y: whatBottom + index * height, width };
    });
  });

  sheet.decorate((doc) => {
    doc
      .lineWidth(0.5)
      .rect(edge - gap, edge - gap, wide - 2 * (edge - gap), high - 2 * (edge - gap));
    doc.stroke('black').lineWidth(1.1);
    doc.rect(edge, edge, wide - 2 * edge, high - 2 * edge).stroke('black');
    doc.moveTo(edge, top).lineTo(right, top).stroke('black');
    if (left > edge) doc.moveTo(left, top).lineTo(left, bottom).stroke('black');
    doc.lineWidth(0.4);
    for (const { x, y } of placed) {
      if (x > left)
        doc
          .moveTo(x, y)
          .lineTo(x, y + height)
          .stroke('black');
    }
    for (let y = whatBottom; y < bottom - 1; y += height) {
      doc.moveTo(left, y).lineTo(right, y).stroke('black');
    }
  });

  const write = () => {
    for (const [index, line] of whatLines(sheet, block).entries()) {
      const y = top + pad * 0.65 + index * sheet.lineHeight(whatLook(sheet));
      sheet.write(line, y, { ...whatLook(sheet), x: left + pad });
    }
    const label = (text: string, x: number, y: number) =>
      sheet.write(legible(text).toUpperCase(), y + type.label * 0.45, {
        size: type.label,
        x: x + pad,
      });
    for (const { cell, x, y, width } of placed) {
      label(cell.label, x, y);
      const look = { face: cell.figures ? 'figures' : 'words', size: type.body } as const;
      const line = fitted(sheet, cell.value, width - 1.6 * pad, look);
      sheet.write(line, y + type.label * 1.75, { ...look, x: x + pad });
    }
    if (block.hash != null) {
      const y = whatBottom + rows.length * height;
      label('Hash of its link in the chain', left, y);
      const size =
        ((right - left - 2 * pad) /
          sheet.measure(inEights(block.hash), { face: 'figures', size: 10 })) *
        10;
      sheet.write(inEights(block.hash), y + type.label * 1.9, {
        face: 'figures',
        size: Math.min(size, type.small),
        x: left + pad,
      });
    }
    if (!narrow(sheet)) {
      const look = { x: edge + pad, width: left - edge - 2 * pad };
      let y = top + pad;
      const lines = (text: string, size: number, face: 'words' | 'bold') => {
        for (const line of sheet.wrap(text, look.width, { size, face }).slice(0, 2)) {
          sheet.write(line, y, { ...look, size, face });
          y += size * 1.35;
        }
      };
      lines(block.shop.name, type.head, 'bold');
      lines(block.shop.place, type.small, 'words');
      y += type.small * 0.5;
      lines(block.printed, type.small, 'words');
    }
  };
  if (page === 1) sheet.tag(sheet.root, 'P', write);
  else {
    sheet.doc.markContent('Artifact', { type: 'Pagination' });
    write();
    sheet.doc.endMarkedContent();
  }
}
