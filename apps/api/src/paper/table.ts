import type { DrawingSheet } from './sheet.ts';
import {
  type Column,
  drawCell,
  heightOf,
  type Placed,
  part,
  type Ready,
  type Row,
  readyCell,
} from './table-cells.ts';
import { legible } from './typeface.ts';

export type { Cell, Column, Row } from './table-cells.ts';

const GAP = 1.3;
/** A row is parted only so that at least so many lines of it stand on each page. */
const FEWEST = 3;

interface ReadyRow {
  row: Row;
  places: readonly Placed[];
  cells: readonly Ready[];
  above: number;
  /** With what is above and below it. */
  height: number;
}

/**
 * A parts list: ruled with hairlines, outlined above and below, its head again on every page. Its sums
 * stand under the last of what they sum, never alone on a page; a row that no page can hold goes on
 * over the next ones.
 */
export function drawTable(
  sheet: DrawingSheet,
  columns: readonly Column[],
  rows: readonly Row[],
): void {
  const { type } = sheet;
  const placed = placeColumns(sheet, columns);
  const ready = rows.map((row) => readyRow(sheet, placed, row));
  const headHeight = type.label * 2.3;
  const whole = sheet.floor - sheet.top - headHeight;
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
  const turn = () => {
    sheet.nextPage();
    sheet.decorate(() => placed.forEach(writeHead), 'Pagination');
    head();
  };

  const first = ready[0];
  const least = first ? Math.min(first.height + followersOf(ready, 0), whole) : 0;
  sheet.need(headHeight + (least < whole / 2 ? least : type.body * 5));
  const headRow = sheet.open(table, 'TR');
  for (const cell of placed) {
    sheet.tag(headRow, 'TH', () => writeHead(cell), { scope: 'Column' });
  }
  headRow.end();
  head();
  for (const [index, one] of ready.entries()) {
    const follow = followersOf(ready, index);
    const kept = follow < whole / 2 ? follow : 0;
    const room = sheet.floor - sheet.y;
    let turned = false;
    // A row that fits on a page is not parted; one that does not is begun where it stands.
    const pages = one.height + kept > whole;
    const enough = pages
      ? Math.min(one.height, type.body * 1.4 * FEWEST + one.above * 2)
      : one.height + kept;
    if (room < enough && sheet.y > sheet.top + headHeight * 1.5) {
      turn();
      turned = true;
    }
    if (one.row.outline) outline();
    else if (index > 0 && !one.row.under && !turned)
      sheet.hairline(sheet.y, sheet.left, sheet.right, 0.25);
    const element = sheet.open(table, 'TR');
    const cells = placed.map(() => sheet.open(element, 'TD'));
    let left = one.cells;
    for (;;) {
      const top = sheet.y + one.above;
      const rest = Math.max(...left.map((cell) => heightOf(sheet, cell)));
      const here = sheet.floor - top;
      // What is parted keeps its last lines for the page of its sums.
      const below = one.height - one.above - heightsOf(sheet, one);
      const fits = rest + kept + below <= here + 0.001;
      const take = fits ? rest : Math.min(here, rest - sheet.lineHeight() * (FEWEST - 1));
      const parts = left.map((cell) => part(sheet, cell, fits ? Infinity : take));
      for (const [at, [now]] of parts.entries()) {
        const place = one.places[at];
        if (place && ('draw' in now || now.lines.length > 0))
          cells[at]?.add(() => drawCell(sheet, place, now, top));
      }
      left = parts.map(([, later]) => later);
      if (left.every((cell) => 'lines' in cell && cell.lines.length === 0)) {
        const drawn = Math.max(...parts.map(([now]) => heightOf(sheet, now)));
        sheet.y = top + drawn + below;
        break;
      }
      turn();
    }
    element.end();
  }
  outline();
  table.end();
  sheet.y += type.body * 0.4;
}

function placeColumns(sheet: DrawingSheet, columns: readonly Column[]): Placed[] {
  const gap = sheet.type.body * GAP;
  const taken = columns.reduce((sum, { width }) => sum + (width ?? 0) + gap, -gap);
  let x = sheet.left;
  return columns.map((column): Placed => {
    const width = column.width ?? sheet.width - taken;
    x += width + gap;
    return { column, x: x - width - gap, width };
  });
}

const heightsOf = (sheet: DrawingSheet, { cells }: Pick<ReadyRow, 'cells'>) =>
  Math.max(...cells.map((cell) => heightOf(sheet, cell)));

function readyRow(sheet: DrawingSheet, placed: readonly Placed[], row: Row): ReadyRow {
  const { body } = sheet.type;
  const places = placed.map((place, index) =>
    row.wideFrom === index ? { ...place, width: sheet.right - place.x } : place,
  );
  const cells = places.map((place, index) => readyCell(sheet, place, row, row.cells[index] ?? ''));
  const [above, below] = row.under ? [body * 0.1, body * 0.15] : [body * 0.42, body * 0.26];
  return { row, places, cells, above, height: above + heightsOf(sheet, { cells }) + below };
}

/** How high what has to stand on the same page beneath a row is: the sums, or the first of what belongs to it. */
function followersOf(rows: readonly ReadyRow[], index: number): number {
  const [next, ...after] = rows.slice(index + 1);
  if (!next) return 0;
  if (next.row.under && !rows[index]?.row.under) return next.height;
  if (!next.row.outline && !rows[index]?.row.outline) return 0;
  // From the outline on they are sums, and stay together.
  return [next, ...after].reduce((sum, { height }) => sum + height, 0);
}
