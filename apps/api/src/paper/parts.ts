import qrcode from 'qrcode';
import type { DrawingSheet, Element } from './sheet.ts';
import { legible } from './typeface.ts';

/** The name of a document over its subject, at the top of the sheet. */
export function drawTitle(sheet: DrawingSheet, title: string, under: string): void {
  const { type } = sheet;
  sheet.text(title, { tag: 'H1', face: 'bold', size: type.title, leading: 1.3 });
  if (under !== '') sheet.text(under, { size: type.head, leading: 1.4 });
  sheet.y += type.body * 0.5;
}

export interface Fact {
  label: string;
  lines: readonly string[];
}

/** Labelled facts side by side. */
export function drawFacts(sheet: DrawingSheet, facts: readonly Fact[]): void {
  const { type } = sheet;
  const gap = type.body * 1.4;
  const width = (sheet.width - gap * (facts.length - 1)) / facts.length;
  const wrapped = facts.map(({ label, lines }) => ({
    label,
    lines: lines.flatMap((line, index) =>
      sheet
        .wrap(line, width, { size: index === 0 ? type.body : type.small })
        .map((text) => ({ text, first: index === 0 })),
    ),
  }));
  const height =
    type.label * 1.9 + Math.max(...wrapped.map(({ lines }) => lines.length)) * type.body * 1.35;
  sheet.need(height);
  for (const [index, { label, lines }] of wrapped.entries()) {
    const x = sheet.left + index * (width + gap);
    sheet.tag(sheet.root, 'P', () => {
      sheet.write(legible(label).toUpperCase(), sheet.y, { size: type.label, x });
      for (const [at, { text, first }] of lines.entries()) {
        const y = sheet.y + type.label * 1.7 + at * type.body * 1.35;
        sheet.write(text, y, { x, size: first ? type.body : type.small });
      }
    });
  }
  sheet.y += height + type.body * 0.5;
}

/** How notes are set, from roomy to tight: a few lines more should not take a page of their own. */
const settings = [
  { scale: 1, leading: 1.4, gap: 0.25 },
  { scale: 1, leading: 1.25, gap: 0.1 },
  { scale: 0.9, leading: 1.25, gap: 0.1 },
] as const;

/** Sentences to be kept in mind, numbered like the notes of a drawing; together on one page. */
export function drawNotes(sheet: DrawingSheet, notes: readonly string[], title = 'Notes'): void {
  if (notes.length === 0) return;
  const { type } = sheet;
  const width = sheet.width - type.small * 2;
  const setAs = ({ scale, leading, gap }: (typeof settings)[number]) => {
    const look = { size: type.small * scale, leading, width };
    const high = notes.reduce(
      (sum, note, index) =>
        sum +
        sheet.wrap(`${index + 1}  ${note}`, width, look).length * sheet.lineHeight(look) +
        type.small * gap,
      0,
    );
    return { look, gap, high };
  };
  const room = sheet.floor - sheet.y - type.head * 3;
  const { look, gap, high } =
    settings.map(setAs).find((set) => set.high <= room) ?? setAs(settings[0]);
  sheet.heading(title, Math.min(high + type.head * 0.5, (sheet.floor - sheet.top) * 0.6));
  for (const [index, note] of notes.entries()) {
    sheet.text(`${index + 1}  ${note}`, look);
    sheet.y += type.small * gap;
  }
}

/** Hazards, before anything else of the work: framed heavily, each with a bar beside it. */
export function drawHazards(sheet: DrawingSheet, hazards: readonly string[]): void {
  if (hazards.length === 0) return;
  const { type } = sheet;
  const bar = type.body * 0.5;
  sheet.text('Before the clock starts', {
    tag: 'H2',
    face: 'bold',
    size: type.head,
    keep: type.body * 4,
  });
  for (const hazard of hazards) {
    const [page, from] = [sheet.doc.bufferedPageRange().count, sheet.y];
    sheet.text(hazard, { x: sheet.left + bar * 2.4, size: type.body * 1.1 });
    if (sheet.doc.bufferedPageRange().count === page)
      sheet.decorate((doc) =>
        doc.rect(sheet.left, from, bar, sheet.y - from - type.body * 0.1).fill('black'),
      );
    sheet.y += type.body * 0.5;
  }
  sheet.y += type.body * 0.5;
}

export interface StampWords {
  kind: string;
  name: string;
  number: string;
  date: string;
}

/** What is signed: a double-ruled rectangle, slightly turned. */
export function drawStamp(sheet: DrawingSheet, { kind, name, number, date }: StampWords): void {
  const { type, doc } = sheet;
  const pad = type.body * 1.1;
  const foot = `No. ${legible(number)}   ${legible(date)}`;
  const looks = {
    kind: { face: 'bold', size: type.small },
    name: { face: 'words', size: type.head * 1.25 },
    foot: { face: 'figures', size: type.small },
  } as const;
  const longest = sheet.width - pad * 4;
  const lines = [
    ...sheet
      .wrap(kind.toUpperCase(), longest, looks.kind)
      .map((text) => ({ text, look: looks.kind })),
    ...sheet.wrap(name, longest, looks.name).map((text) => ({ text, look: looks.name })),
    ...sheet.wrap(foot, longest, looks.foot).map((text) => ({ text, look: looks.foot })),
  ];
  const width = Math.max(...lines.map(({ text, look }) => sheet.measure(text, look))) + pad * 2;
  const height = lines.reduce((sum, { look }) => sum + look.size * 1.5, pad * 1.2);
  sheet.need(height + type.body * 2.4);
  const x = sheet.right - width - type.body * 0.8;
  const y = sheet.y + type.body * 1.2;
  sheet.tag(sheet.root, 'P', () => {
    doc.save();
    doc.rotate(-2, { origin: [x + width / 2, y + height / 2] });
    doc.lineWidth(1.2).rect(x, y, width, height).stroke('black');
    doc
      .lineWidth(0.6)
      .rect(x + 2.4, y + 2.4, width - 4.8, height - 4.8)
      .stroke('black');
    let at = y + pad * 0.7;
    for (const { text, look } of lines) {
      sheet.write(text, at, { ...look, x, width, align: 'centre' });
      at += look.size * 1.5;
    }
    doc.restore();
  });
  sheet.y = y + height + type.body * 1.2;
}

/** A square code that a telephone reads, drawn as vectors; says where it leads for those who cannot see it. */
export function drawCode(
  sheet: DrawingSheet,
  parent: Element,
  address: string,
  { x, y, side }: { x: number; y: number; side: number },
): void {
  const { modules } = qrcode.create(address, { errorCorrectionLevel: 'M' });
  // Four modules of quiet zone on each side (ISO/IEC 18004).
  const unit = side / (modules.size + 8);
  sheet.tag(
    parent,
    'Figure',
    (doc) => {
      for (let row = 0; row < modules.size; row += 1)
        for (let column = 0; column < modules.size; column += 1)
          if (modules.get(row, column))
            doc.rect(x + (column + 4) * unit, y + (row + 4) * unit, unit, unit);
      doc.fill('black');
    },
    { alt: `Square code that opens ${address}`, bbox: [x, y, x + side, y + side] },
  );
}
