import { dimensionOf, type Estimate } from './figures.ts';
import type { DrawingSheet, Tagged } from './sheet.ts';

const num = (value: number | bigint) => Number(value);

/** The line of an estimate: ends at P10 and P90, a stroke at P50, an open triangle at P80. */
export function drawDimensionLine(
  doc: Tagged,
  estimate: Estimate,
  {
    x,
    y,
    width,
    most,
    mark = 3,
  }: { x: number; y: number; width: number; most: number; mark?: number },
): void {
  const at = (value: number | bigint) =>
    x + Math.min(1, Math.max(0, num(value) / (most > 0 ? most : 1))) * width;
  const { p10, p50, p80, p90 } = estimate;
  doc
    .lineWidth(0.3)
    .moveTo(x, y)
    .lineTo(x + width, y)
    .stroke('black');
  doc
    .moveTo(x, y - mark)
    .lineTo(x, y + mark)
    .stroke('black');
  doc.lineWidth(1).moveTo(at(p10), y).lineTo(at(p90), y).stroke('black');
  const end = (where: number) =>
    doc.moveTo(where - mark * 0.6, y + mark * 0.6).lineTo(where + mark * 0.6, y - mark * 0.6);
  if (p10 !== p90) {
    end(at(p10)).stroke('black');
    end(at(p90)).stroke('black');
    const top = y - mark * 0.4;
    doc.lineWidth(0.6);
    doc.polygon(
      [at(p80), top],
      [at(p80) - mark * 0.75, top - mark * 1.3],
      [at(p80) + mark * 0.75, top - mark * 1.3],
    );
    doc.fillAndStroke('white', 'black');
  }
  doc
    .lineWidth(1.4)
    .moveTo(at(p50), y - mark)
    .lineTo(at(p50), y + mark)
    .stroke('black');
}

/** How high an estimate is when written and drawn. */
export const dimensionHeight = ({ type }: DrawingSheet) => type.body * 2.5;

/** The share of its column by which a nominal ends. */
const NOMINAL = 0.4;

/** Nominal with its tolerances one above the other, the range, and its line beneath. */
export function drawDimension(
  sheet: DrawingSheet,
  estimate: Estimate,
  { x, y, width, most }: { x: number; y: number; width: number; most: number },
): void {
  const { type, doc } = sheet;
  const { nominal, tolerance, range } = dimensionOf(estimate);
  // The head of a column of money names its currency once.
  const written = estimate.unit === 'h' ? `${nominal} h` : nominal;
  // So that the nominals of a column stand under each other, as far as they have the room.
  const at = x + Math.max(0, width * NOMINAL - sheet.measure(written, { face: 'figures' }));
  sheet.write(written, y, { face: 'figures', x: at });
  let next = at + sheet.measure(written, { face: 'figures' }) + type.body * 0.5;
  if (tolerance === null) sheet.write('firm', y + type.body * 0.2, { x: next, size: type.small });
  else {
    const small = { face: 'figures', size: type.label, x: next } as const;
    sheet.write(tolerance.up, y - type.body * 0.12, small);
    sheet.write(tolerance.down, y + type.body * 0.58, small);
    next += Math.max(sheet.measure(tolerance.up, small), sheet.measure(tolerance.down, small));
    const look = { face: 'figures', size: type.label, align: 'right' } as const;
    if (range && next + sheet.measure(range, look) + type.body * 0.6 <= x + width)
      sheet.write(range, y + type.body * 0.25, { ...look, x, width });
  }
  drawDimensionLine(doc, estimate, {
    x,
    y: y + type.body * 1.95,
    width,
    most,
    mark: type.body * 0.3,
  });
}

/** An estimate in one sentence, for the ear. */
export function dimensionWords(estimate: Estimate): string {
  const { nominal, tolerance, range } = dimensionOf(estimate);
  return tolerance === null
    ? `${nominal} ${estimate.unit}, firm`
    : `${nominal} ${estimate.unit} ${tolerance.up} ${tolerance.down}, ${range}`;
}

/** One link of a chain dimension: from where the last one ended to where this one does. */
export function drawLink(
  doc: Tagged,
  { from, to, most }: { from: bigint; to: bigint; most: bigint },
  { x, y, width, mark }: { x: number; y: number; width: number; mark: number },
): void {
  const at = (value: bigint) => x + (Number(value) / Number(most > 0n ? most : 1n)) * width;
  doc
    .lineWidth(0.3)
    .moveTo(x, y - mark)
    .lineTo(x, y + mark)
    .stroke('black');
  doc.lineWidth(1).moveTo(at(from), y).lineTo(at(to), y);
  for (const end of [at(from), at(to)])
    doc.moveTo(end - mark * 0.6, y + mark * 0.6).lineTo(end + mark * 0.6, y - mark * 0.6);
  doc.stroke('black');
}
