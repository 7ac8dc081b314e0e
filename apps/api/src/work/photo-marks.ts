import { Refused } from '../errors.ts';
import { atMost, text } from './limits.ts';

export const MOST_MARKS = 12;
const WHOLE = 1000;

export const markKinds = ['arrow', 'ring', 'note'] as const;
export type MarkKind = (typeof markKinds)[number];

/** A mark over a photo, places in thousandths of its width and height, from the upper left. */
export interface PhotoMark {
  kind: MarkKind;
  /** An arrow's point, a ring's middle, where a note begins. */
  x: number;
  y: number;
  /** An arrow's tail, a place on a ring; for a note as x and y. */
  toX: number;
  toY: number;
  /** A note's words; empty for the others. */
  words: string;
}

/** @throws Refused for a mark outside of the picture, or a note without words */
export function givenMarks(given: readonly PhotoMark[]): PhotoMark[] {
  return atMost(given, 'marks', MOST_MARKS).map((mark, index) => {
    const field = `marks[${index}]`;
    for (const name of ['x', 'y', 'toX', 'toY'] as const) {
      const place = mark[name];
      if (!Number.isInteger(place) || place < 0 || place > WHOLE)
        throw new Refused(
          'BAD_INPUT',
          `${field}.${name} is ${place}: needed is a whole number from 0 to ${WHOLE}, thousandths of the picture.`,
          field,
        );
    }
    const words = text(mark.words, `${field}.words`, {
      least: mark.kind === 'note' ? 1 : 0,
      most: 60,
    });
    const { kind, x, y, toX, toY } = mark;
    return { kind, x, y, toX, toY, words };
  });
}

/** The newest marking of a photo, as it was kept; none where nobody has marked it. */
export const marksOf = (markings: readonly { id: string; marks: unknown }[]): PhotoMark[] => {
  const newest = markings.reduce<{ id: string; marks: unknown } | null>(
    // Keys rise with time.
    (last, each) => (last === null || each.id > last.id ? each : last),
    null,
  );
  return (newest?.marks ?? []) as PhotoMark[];
};

export const markingsSelect = { select: { id: true, marks: true } } as const;
