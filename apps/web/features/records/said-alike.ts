/** Words that several items share but for their figures. */
export interface Alike {
  /** With the figures that differ written as "…". */
  words: string;
  /** How many items say it. */
  items: number;
}

/** From this many on it is read once for all of them. */
const SEVERAL = 3;

const figures = /\d+/g;
const withoutFigures = (text: string) => text.replace(figures, '…');

/**
 * What most items say alike, but for figures such as the number of a chapter; null where fewer than three do. So that
 * one reads it once, and sees what is said otherwise.
 *
 * @example saidAlike(['Done to chapter 24.', 'Done to chapter 28.', 'Crack found.', 'Done to chapter 71.']) // → { words: 'Done to chapter ….', items: 3 }
 */
export function saidAlike(said: readonly string[]): Alike | null {
  const counts = new Map<string, number>();
  for (const text of said) {
    const words = withoutFigures(text);
    counts.set(words, (counts.get(words) ?? 0) + 1);
  }
  let most: Alike | null = null;
  for (const [words, items] of counts)
    if (items >= SEVERAL && items > (most?.items ?? 0)) most = { words, items };
  return most;
}

/**
 * The figures of a text that says what is said alike, in its order; null where it says something else.
 *
 * @example figuresOf('Done to chapter 28.', { words: 'Done to chapter ….', items: 3 }) // → ['28']
 */
export function figuresOf(text: string, alike: Alike | null): readonly string[] | null {
  if (alike === null || withoutFigures(text) !== alike.words) return null;
  return text.match(figures) ?? [];
}
