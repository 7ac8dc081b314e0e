import type PDFDocument from 'pdfkit';
import type { PaperName, papers } from './sizes.ts';
import type { Face } from './typeface.ts';

export type Tagged = InstanceType<typeof PDFDocument>;
export type Element = ReturnType<Tagged['struct']>;

export interface Look {
  face?: Face;
  size?: number;
  /** From the left frame. */
  x?: number;
  width?: number;
  /** A line is drawn through it: corrected by something later, and readable still. */
  struck?: boolean;
  align?: 'left' | 'right' | 'centre';
  /** Line height as a multiple of the size. */
  leading?: number;
}

/** What the library takes beyond what its types say. */
export type TagOptions = PDFKit.Mixins.StructureElementOptions & {
  scope?: 'Column';
  bbox?: [left: number, top: number, right: number, bottom: number];
};

/** Tags of ISO 32000-1, 14.8.4, as far as they are used here. */
export type Tag = 'H1' | 'H2' | 'P' | 'Sect' | 'Table' | 'TR' | 'TH' | 'TD' | 'Figure' | 'L' | 'LI';

/** What a sheet offers to whatever draws on it at a place of its own. */
export interface Pen {
  readonly doc: Tagged;
  readonly root: Element;
  readonly type: (typeof papers)[PaperName]['type'];
  readonly paper: PaperName;
  readonly width: number;
  measure(text: string, look?: Look): number;
  wrap(text: string, width: number, look?: Look): string[];
  write(line: string, y: number, look?: Look): void;
  lineHeight(look?: Look): number;
  decorate(draw: (doc: Tagged) => void): void;
  tag(parent: Element, tag: Tag, draw: (doc: Tagged) => void, options?: TagOptions): void;
}
