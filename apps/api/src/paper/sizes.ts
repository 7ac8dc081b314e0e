import { Refused } from '../errors.ts';

/** Points of PDF (1/72 inch) in so many millimetres. */
export const mm = (millimetres: number) => (millimetres / 25.4) * 72;

interface Paper {
  widthMm: number;
  heightMm: number;
  /** Sizes of type in points, and the frame's distance from the edge in millimetres. */
  type: { title: number; head: number; body: number; small: number; label: number };
  edgeMm: number;
}

const page = { title: 19, head: 10.5, body: 9, small: 7.25, label: 5.75 };

/** What can be printed on: A4 (ISO 216), Letter (ANSI/ASME Y14.1, size A), and a sheet that sticks into a record book. */
export const papers = {
  a4: { widthMm: 210, heightMm: 297, type: page, edgeMm: 8 },
  letter: { widthMm: 215.9, heightMm: 279.4, type: page, edgeMm: 8 },
  /** 100 mm × 150 mm, a common size of adhesive sheets (common practice, no source). */
  sheet: {
    widthMm: 100,
    heightMm: 150,
    type: { title: 11, head: 8, body: 6.75, small: 5.75, label: 4.75 },
    edgeMm: 3,
  },
} as const satisfies Record<string, Paper>;

export type PaperName = keyof typeof papers;

/**
 * The paper asked for; A4 where none is.
 *
 * @param offered the papers on which this document can be printed
 * @throws Refused for any other
 */
export function paperAsked(given: unknown, offered: readonly PaperName[]): PaperName {
  const asked = given ?? 'a4';
  const known = offered.find((name) => name === asked);
  if (known) return known;
  throw new Refused(
    'BAD_INPUT',
    `paper is "${String(asked).slice(0, 40)}": this can be printed on ${offered.join(' or ')}.`,
    'paper',
  );
}
