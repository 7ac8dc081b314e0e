import type { Context } from '../context.ts';
import type { PaperShop } from './ask.ts';
import { dayAndTimeText } from './figures.ts';
import type { PaperName } from './sizes.ts';

export interface Print {
  paper: PaperName;
  at: Date;
  uploadsDir: string;
  webOrigin: string;
}

/** One kind of paper: what it is printed from, on what, and how it is read. */
export interface PaperKind {
  /** Types of the things that it can be printed of. */
  of: readonly [string, ...string[]];
  papers: readonly PaperName[];
  /** Reads all that it needs; drawing comes after, when the request's transaction is over. */
  read(
    context: Context,
    id: string,
    query?: Readonly<Record<string, unknown>>,
  ): Promise<ReadyToPrint>;
}

export interface ReadyToPrint {
  /** Without its ending. */
  filename: string;
  print(print: Print): Promise<Buffer>;
}

export const pages: readonly PaperName[] = ['a4', 'letter'];

/** What the title block of every paper says of its shop. */
export const fromShop = ({ name, place, timeZone }: PaperShop, { at }: Pick<Print, 'at'>) => ({
  shop: { name, place },
  printed: `Printed ${dayAndTimeText(at, timeZone)}`,
});
