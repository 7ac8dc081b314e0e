import type { PhotoMark } from '../work/index.ts';

type Doc = PDFKit.PDFDocument;

/** Black beneath white, as on the pages, so that a mark shows on any photo. Widths in thousandths of the longer side. */
const STROKES = [
  ['#000000', 11],
  ['#ffffff', 5],
] as const;
const HEAD = 34;

/** Arrows, rings and words over a photo that is drawn in this box, points. */
export function drawMarks(
  doc: Doc,
  marks: readonly PhotoMark[],
  box: { x: number; y: number; width: number; height: number },
): void {
  if (marks.length === 0) return;
  const unit = Math.max(box.width, box.height) / 1000;
  doc.save();
  doc.rect(box.x, box.y, box.width, box.height).clip();
  doc.lineCap('round').lineJoin('round');
  for (const mark of marks) {
    const [x, y] = [box.x + (mark.x * box.width) / 1000, box.y + (mark.y * box.height) / 1000];
    const [toX, toY] = [
      box.x + (mark.toX * box.width) / 1000,
      box.y + (mark.toY * box.height) / 1000,
    ];
    for (const [colour, width] of STROKES) {
      doc.lineWidth(width * unit);
      if (mark.kind === 'ring') {
        doc.circle(x, y, Math.max(8 * unit, Math.hypot(toX - x, toY - y))).stroke(colour);
      } else if (mark.kind === 'arrow') {
        const along = Math.atan2(toY - y, toX - x);
        doc.moveTo(toX, toY).lineTo(x, y);
        for (const turn of [0.45, -0.45]) {
          const reach = HEAD * unit;
          doc
            .moveTo(x + reach * Math.cos(along + turn), y + reach * Math.sin(along + turn))
            .lineTo(x, y);
        }
        doc.stroke(colour);
      }
    }
  }
  doc.restore();
}
