import PDFDocument from 'pdfkit';
import type { Element, Look, Pen, Tag, Tagged, TagOptions } from './pen.ts';
import { mm, type PaperName, papers } from './sizes.ts';
import { drawTitleBlock, type TitleBlock, titleBlockHeight } from './title-block.ts';
import { ascentOf, legible, OTHER_SCALE, piecesOf, typefaces } from './typeface.ts';

export type { Element, Tagged } from './pen.ts';

export interface SheetContent {
  paper: PaperName;
  /** Title of the document, for the reader's window and for the ear. */
  title: string;
  block: TitleBlock;
  /** When it is printed: the only date in the file that is not the shop's. */
  at: Date;
}

/** How much less room a point takes, as a share of the size. */
const POINT = 0.24;

/**
 * A drawing sheet that is filled from top to bottom: framed twice, its title block bottom right on
 * every page, everything on it tagged in reading order (ISO 14289-1) or marked as decoration.
 * Coordinates are points from the top left corner.
 */
export class DrawingSheet implements Pen {
  readonly doc: Tagged;
  readonly root: Element;
  readonly type: (typeof papers)[PaperName]['type'];
  readonly paper: PaperName;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  /** Nothing of the document itself goes below. */
  readonly floor: number;
  y: number;
  readonly #content: SheetContent;
  readonly #bytes: Promise<Buffer>;

  constructor(content: SheetContent) {
    const { paper, title, block, at } = content;
    const { widthMm, heightMm, type, edgeMm } = papers[paper];
    this.#content = content;
    this.paper = paper;
    this.type = type;
    this.doc = new PDFDocument({
      size: [mm(widthMm), mm(heightMm)],
      margin: 0,
      font: '',
      pdfVersion: '1.7',
      tagged: true,
      subset: 'PDF/UA' as never,
      lang: 'en',
      displayTitle: true,
      bufferPages: true,
      info: { Title: legible(title), CreationDate: at, ModDate: at, Creator: 'Fairlead' },
    });
    for (const [name, bytes] of Object.entries(typefaces)) this.doc.registerFont(name, bytes);
    const chunks: Buffer[] = [];
    this.#bytes = new Promise((resolve, reject) => {
      this.doc.on('data', (chunk: Buffer) => chunks.push(chunk));
      this.doc.on('end', () => resolve(Buffer.concat(chunks)));
      this.doc.on('error', reject);
    });
    this.root = this.doc.struct('Document');
    this.doc.addStructure(this.root);
    const inside = mm(edgeMm) + type.body;
    this.left = inside;
    this.right = mm(widthMm) - inside;
    this.top = inside;
    this.floor = mm(heightMm) - mm(edgeMm) - titleBlockHeight(this, block) - type.body * 0.8;
    this.y = this.top;
  }

  get width(): number {
    return this.right - this.left;
  }

  /** Goes to the next page unless so much room is left on this one. Says whether it did. */
  need(height: number): boolean {
    if (this.y + height <= this.floor || this.y === this.top) return false;
    this.nextPage();
    return true;
  }

  nextPage(): void {
    this.doc.addPage();
    this.y = this.top;
  }

  space(points: number): void {
    if (this.y > this.top) this.y += points;
  }

  /** Draws what carries no meaning of its own. */
  decorate(draw: (doc: Tagged) => void, type: 'Layout' | 'Pagination' = 'Layout'): void {
    this.doc.markContent('Artifact', { type });
    draw(this.doc);
    this.doc.endMarkedContent();
  }

  /** Draws something with its meaning for the ear, in one place of one page. */
  tag(parent: Element, tag: Tag, draw: (doc: Tagged) => void, options: TagOptions = {}): void {
    parent.add(this.doc.struct(tag, options, [() => draw(this.doc)]));
  }

  /** An element that is filled by and by; `end` it when it is. */
  open(parent: Element, tag: Tag): Element {
    const element = this.doc.struct(tag);
    parent.add(element);
    return element;
  }

  /** How wide a text is on one line. */
  measure(text: string, look: Look = {}): number {
    return this.#runs(text, look).reduce((sum, { width }) => sum + width, 0);
  }

  /**
   * A line in the pieces that it is drawn in: letters that the face lacks come from another one, and in
   * a face of equal widths a point takes less room than a digit.
   */
  #runs(text: string, { face = 'words', size = this.type.body }: Look) {
    // Not where it is small: tolerances stand one above the other, and are copied out as whole figures.
    const tight = face.endsWith('igures') && size >= this.type.body;
    const parts = tight ? text.split(/(?<=\d[.,])(?=\d)/) : [text];
    return parts.flatMap((part, index) => {
      const pieces = piecesOf(part, face);
      return pieces.map(({ text: piece, font }, at) => {
        const drawnAt = font === face ? size : size * OTHER_SCALE;
        this.doc.font(font).fontSize(drawnAt);
        const shorter = at === pieces.length - 1 && index < parts.length - 1 ? size * POINT : 0;
        return { piece, font, size: drawnAt, width: this.doc.widthOfString(piece) - shorter };
      });
    });
  }

  /** A text broken into lines of at most a width; a word that is longer is broken where it must be. */
  wrap(text: string, width: number, look: Look = {}): string[] {
    const fits = (line: string) => this.measure(line, look) <= width;
    return text.split('\n').flatMap((paragraph) => {
      const lines: string[] = [];
      let line = '';
      for (let word of legible(paragraph).split(' ')) {
        const longer = line === '' ? word : `${line} ${word}`;
        if (fits(longer)) {
          line = longer;
          continue;
        }
        if (line !== '') lines.push(line);
        while (!fits(word) && word.length > 1) {
          let cut = 0;
          for (let used = 0; cut < word.length; cut += 1) {
            used += this.measure(word.charAt(cut), look);
            if (used > width) break;
          }
          cut = Math.max(1, cut);
          lines.push(word.slice(0, cut));
          word = word.slice(cut);
        }
        line = word;
      }
      return [...lines, line];
    });
  }

  /** Writes one line where it is told to, inside of whatever is tagged now. */
  write(line: string, y: number, look: Look = {}): void {
    const { face = 'words', size = this.type.body, x = this.left, align = 'left' } = look;
    const width = look.width ?? this.right - x;
    const slack = align === 'left' ? 0 : width - this.measure(line, look);
    let at = x + (align === 'centre' ? slack / 2 : slack);
    const runs = this.#runs(line, look);
    this.doc.fillColor('black');
    // All stand on one line, though each file says differently how far it is under the top.
    const baseline = y + ascentOf(face) * size;
    for (const [index, run] of runs.entries()) {
      // A reader for the ear joins what is written in one element: without the space it would join words.
      const end = index === runs.length - 1 ? ' ' : '';
      this.doc.font(run.font).fontSize(run.size);
      this.doc.text(run.piece + end, at, baseline, { lineBreak: false, baseline: 'alphabetic' });
      at += run.width;
    }
    if (look.struck === true && line !== '') {
      const from = x + (align === 'centre' ? slack / 2 : slack);
      const through = baseline - size * 0.3;
      this.doc.lineWidth(0.7).moveTo(from, through).lineTo(at, through).stroke('black');
    }
  }

  lineHeight({ size = this.type.body, leading = 1.4 }: Look = {}): number {
    return size * leading;
  }

  /** A paragraph or heading from here downwards, over as many pages as it takes. */
  text(text: string, look: Look & { tag?: Tag; parent?: Element; keep?: number } = {}): void {
    const { tag = 'P', parent = this.root, keep = 0, x = this.left } = look;
    const height = this.lineHeight(look);
    const waiting = this.wrap(text, look.width ?? this.right - x, look);
    this.need(height * Math.min(2, waiting.length) + keep);
    const element = this.open(parent, tag);
    while (waiting.length > 0) {
      const room = Math.max(1, Math.floor((this.floor - this.y) / height + 0.001));
      const here = waiting.splice(0, room);
      element.add(() => {
        for (const [index, line] of here.entries()) {
          this.write(line, this.y + index * height, look);
        }
      });
      this.y += here.length * height;
      if (waiting.length > 0) this.nextPage();
    }
    element.end();
  }

  /** A heading over a hairline. */
  heading(text: string, keep: number = this.type.body * 4): void {
    const { head } = this.type;
    this.space(head);
    this.text(text, { tag: 'H2', face: 'bold', size: head, keep, leading: 1.5 });
    this.hairline(this.y);
    this.y += head * 0.35;
  }

  hairline(y: number, from: number = this.left, to: number = this.right, weight = 0.4): void {
    this.decorate((doc) => doc.lineWidth(weight).moveTo(from, y).lineTo(to, y).stroke('black'));
  }

  /** Frames every page and writes the title block of each; then the bytes of the whole. */
  finish(): Promise<Buffer> {
    const { start, count } = this.doc.bufferedPageRange();
    for (let index = 0; index < count; index += 1) {
      this.doc.switchToPage(start + index);
      drawTitleBlock(this, this.#content.block, { page: index + 1, of: count });
    }
    this.root.end();
    this.doc.end();
    return this.#bytes;
  }
}
