import { dimensionHeight, drawDimension, drawLink } from './dimension.ts';
import type { Estimate } from './figures.ts';
import type { DrawingSheet, Element } from './sheet.ts';
import { legible } from './typeface.ts';

export interface Column {
  head: string;
  /** Points; null takes what the others leave. */
  width: number | null;
  figures?: boolean;
}

export type Cell =
  | string
  | { balloon: number }
  | { estimate: Estimate; most: number }
  | { text: string; note: string }
  | { link: { from: bigint; to: bigint; most: bigint } };

export interface Row {
  cells: readonly Cell[];
  bold?: boolean;
  /** Set in and smaller: belongs to the row above. */
  under?: boolean;
  /** Outline above it: sums begin here. */
  outline?: boolean;
}

interface Placed {
  column: Column;
  x: number;
  width: number;
}

const GAP = 1.3;

/** A parts list: ruled with hairlines, outlined above and below, its head again on every page. */
export function drawTable(
  sheet: DrawingSheet,
  columns: readonly Column[],
  rows: readonly Row[],
): void {
  const { type } = sheet;
  const gap = type.body * GAP;
  const taken = columns.reduce((sum, { width }) => sum + (width ?? 0) + gap, -gap);
  let x = sheet.left;
  const placed = columns.map((column): Placed => {
    const width = column.width ?? sheet.width - taken;
    x += width + gap;
    return { column, x: x - width - gap, width };
  });
  const headHeight = type.label * 2.3;
  const table = sheet.open(sheet.root, 'Table');
  const writeHead = ({ column, x, width }: Placed) =>
    sheet.write(legible(column.head).toUpperCase(), sheet.y + type.label * 0.5, {
      size: type.label,
      x,
      width,
      align: column.figures ? 'right' : 'left',
    });
  const outline = () => sheet.hairline(sheet.y, sheet.left, sheet.right, 1.1);
  const head = () => {
    sheet.y += headHeight;
    outline();
  };

  const first = rows[0];
  sheet.need(headHeight + (first ? heightOf(sheet, placed, first) : 0));
  const headRow = sheet.open(table, 'TR');
  for (const cell of placed) {
    sheet.tag(headRow, 'TH', () => writeHead(cell), { scope: 'Column' });
  }
  headRow.end();
  head();
  for (const [index, row] of rows.entries()) {
    const height = heightOf(sheet, placed, row);
    if (sheet.need(height)) {
      sheet.decorate(() => placed.forEach(writeHead));
      head();
    } else if (row.outline) outline();
    else if (index > 0 && !row.under) sheet.hairline(sheet.y, sheet.left, sheet.right, 0.25);
    drawRow(sheet, table, placed, row);
    sheet.y += height;
  }
  outline();
  table.end();
  sheet.y += type.body * 0.4;
}

const lookOf = ({ type }: DrawingSheet, row: Row, figures: boolean | undefined) =>
  ({
    face: figures ? (row.bold ? 'boldFigures' : 'figures') : row.bold ? 'bold' : 'words',
    size: row.under ? type.small : type.body,
  }) as const;

function heightOf(sheet: DrawingSheet, placed: readonly Placed[], row: Row): number {
  const { type } = sheet;
  const padding = row.under ? type.body * 0.25 : type.body * 0.75;
  const heights = placed.map(({ column, width }, index) => {
    const cell = row.cells[index] ?? '';
    if (typeof cell !== 'string' && 'balloon' in cell) return type.body * 1.6;
    if (typeof cell !== 'string' && 'estimate' in cell) return dimensionHeight(sheet);
    if (typeof cell !== 'string' && 'link' in cell) return type.body;
    const look = lookOf(sheet, row, column.figures);
    const [text, note] = typeof cell === 'string' ? [cell, ''] : [cell.text, cell.note];
    const lines = column.figures ? 1 : sheet.wrap(text, width, look).length;
    const small = { size: type.small };
    const noted = note === '' ? 0 : sheet.wrap(note, width, small).length;
    return lines * sheet.lineHeight(look) + noted * sheet.lineHeight(small);
  });
  return Math.max(...heights) + padding;
}

function drawRow(sheet: DrawingSheet, table: Element, placed: readonly Placed[], row: Row): void {
  const { type } = sheet;
  const top = sheet.y + (row.under ? type.body * 0.1 : type.body * 0.45);
  const element = sheet.open(table, 'TR');
  for (const [index, { column, x, width }] of placed.entries()) {
    const cell = row.cells[index] ?? '';
    sheet.tag(element, 'TD', (doc) => {
      if (typeof cell !== 'string' && 'balloon' in cell) {
        const radius = type.body * 0.85;
        doc
          .lineWidth(0.6)
          .circle(x + radius, top + type.body * 0.55, radius)
          .stroke('black');
        sheet.write(String(cell.balloon), top + type.body * 0.12, {
          face: 'figures',
          size: type.small,
          x,
          width: radius * 2,
          align: 'centre',
        });
        return;
      }
      if (typeof cell !== 'string' && 'estimate' in cell) {
        return drawDimension(sheet, cell.estimate, { x, y: top, width, most: cell.most });
      }
      if (typeof cell !== 'string' && 'link' in cell)
        return drawLink(doc, cell.link, {
          x,
          y: top + type.body * 0.6,
          width,
          mark: type.body * 0.3,
        });
      const look = lookOf(sheet, row, column.figures);
      const [text, note] = typeof cell === 'string' ? [cell, ''] : [cell.text, cell.note];
      if (column.figures)
        return sheet.write(legible(text), top, { ...look, x, width, align: 'right' });
      let y = top;
      for (const line of sheet.wrap(text, width, look)) {
        sheet.write(line, y, { ...look, x, width });
        y += sheet.lineHeight(look);
      }
      if (note === '') return;
      for (const line of sheet.wrap(note, width, { size: type.small })) {
        sheet.write(line, y, { size: type.small, x, width });
        y += sheet.lineHeight({ size: type.small });
      }
    });
  }
  element.end();
}
