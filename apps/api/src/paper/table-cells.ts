import { dimensionHeight, drawDimension, drawLink } from './dimension.ts';
import type { Estimate } from './figures.ts';
import type { DrawingSheet, Tagged } from './sheet.ts';
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
  /** The column from which on one cell takes all that is left of the width; those after it are empty. */
  wideFrom?: number;
}

export interface Placed {
  column: Column;
  x: number;
  width: number;
}

interface Line {
  text: string;
  look: { face: 'words' | 'bold' | 'figures' | 'boldFigures'; size: number };
}

/** A cell as it will be drawn: in lines, between which a page may end, or in one piece. */
export type Ready = { lines: readonly Line[] } | { height: number; draw: Draw };
type Draw = (doc: Tagged, top: number) => void;

/** How small figures may become before they would be cut: a column of money is wide enough for all but the longest. */
const LEAST = 0.6;

/** Works out a cell: what is in it, in which lines, how high. */
export function readyCell(
  sheet: DrawingSheet,
  { column, x, width }: Placed,
  row: Row,
  cell: Cell,
): Ready {
  const { type } = sheet;
  if (typeof cell !== 'string' && 'balloon' in cell)
    return { height: type.body * 1.6, draw: drawBalloon(sheet, cell.balloon, x) };
  if (typeof cell !== 'string' && 'estimate' in cell)
    return {
      height: dimensionHeight(sheet),
      draw: (_, y) => drawDimension(sheet, cell.estimate, { x, y, width, most: cell.most }),
    };
  if (typeof cell !== 'string' && 'link' in cell)
    return {
      height: type.body,
      draw: (doc, top) =>
        drawLink(doc, cell.link, { x, y: top + type.body * 0.6, width, mark: type.body * 0.3 }),
    };
  const look = lookOf(sheet, row, column);
  const [text, note] = typeof cell === 'string' ? [cell, ''] : [cell.text, cell.note];
  if (text === '' && note === '') return { lines: [] };
  if (column.figures) {
    const wide = sheet.measure(legible(text), look);
    const size = look.size * Math.max(LEAST, Math.min(1, width / wide));
    return { lines: [{ text: legible(text), look: { ...look, size } }] };
  }
  const small = { face: 'words', size: type.small } as const;
  const linesOf = (words: string, own: Line['look']) =>
    words === '' ? [] : sheet.wrap(words, width, own).map((line) => ({ text: line, look: own }));
  return { lines: [...linesOf(text, look), ...linesOf(note, small)] };
}

export const heightOf = (sheet: DrawingSheet, ready: Ready): number =>
  'draw' in ready
    ? ready.height
    : ready.lines.reduce((sum, { look }) => sum + sheet.lineHeight(look), 0);

/** As many lines as there is room for, and those left. What is drawn in one piece is not parted. */
export function part(sheet: DrawingSheet, ready: Ready, room: number): [now: Ready, later: Ready] {
  if ('draw' in ready) return [ready, { lines: [] }];
  let [count, used] = [0, 0];
  for (const { look } of ready.lines) {
    used += sheet.lineHeight(look);
    if (used > room + 0.001) break;
    count += 1;
  }
  return [{ lines: ready.lines.slice(0, count) }, { lines: ready.lines.slice(count) }];
}

export function drawCell(
  sheet: DrawingSheet,
  { column, x, width }: Placed,
  ready: Ready,
  top: number,
): void {
  if ('draw' in ready) return ready.draw(sheet.doc, top);
  let y = top;
  for (const { text, look } of ready.lines) {
    sheet.write(text, y, { ...look, x, width, align: column.figures ? 'right' : 'left' });
    y += sheet.lineHeight(look);
  }
}

const lookOf = ({ type }: DrawingSheet, row: Row, { figures }: Column): Line['look'] => ({
  face: figures ? (row.bold ? 'boldFigures' : 'figures') : row.bold ? 'bold' : 'words',
  size: row.under ? type.small : type.body,
});

function drawBalloon(sheet: DrawingSheet, number: number, x: number): Draw {
  const { type } = sheet;
  const radius = type.body * 0.85;
  const look = { face: 'figures', x, width: radius * 2, align: 'centre' } as const;
  return (doc, top) => {
    doc
      .lineWidth(0.6)
      .circle(x + radius, top + type.body * 0.55, radius)
      .stroke('black');
    sheet.write(String(number), top + type.body * 0.12, { ...look, size: type.small });
  };
}
