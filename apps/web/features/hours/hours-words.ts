/** A factor on hours: ×1.12. */
export const factorText = (factor: number): string => `×${factor.toFixed(2)}`;

/** "8 of 10". */
export const ofText = (within: number, items: number): string => `${within} of ${items}`;

const monthNames = new Intl.DateTimeFormat('en-GB', { month: 'short', timeZone: 'UTC' });

/** A month as people say it: Mar 2026. */
export function monthText(month: string): string {
  return `${monthNames.format(new Date(`${month}-01T00:00:00Z`)).slice(0, 3)} ${month.slice(0, 4)}`;
}

/** What may be said of a range that was quoted again and again, in two or three words. */
export const verdictWords = {
  too_few: 'too few to say',
  agrees: 'holds',
  too_narrow: 'too narrow',
  too_wide: 'too wide',
} as const;

/** What clocked hours are to quoted ones, in one sentence. */
export function ratioSentence({
  median,
  low,
  high,
}: {
  median: number;
  low: number;
  high: number;
}): string {
  const away = Math.round((median - 1) * 100);
  const said =
    away === 0
      ? 'took its P50'
      : `took ${Math.abs(away)} % ${away > 0 ? 'longer' : 'less'} than its P50`;
  return `The middle item ${said}; half of them lie between ${factorText(low)} and ${factorText(high)}.`;
}

/** Where the clock came out on the dimension that was quoted. */
export function cameOut({
  p10,
  p80,
  p90,
  actual,
}: Record<'p10' | 'p80' | 'p90' | 'actual', number>): string {
  if (actual < p10) return 'under P10';
  if (actual > p90) return 'over P90';
  return actual > p80 ? 'within, over P80' : 'within';
}

/** A refusal of a history file as one sentence: "hours “lots” is not a number. Write …". */
export function refusalText({
  column,
  value,
  problem,
  remedy,
}: Record<'column' | 'value' | 'problem' | 'remedy', string>): string {
  const what =
    column === '' ? 'The row' : column === value || value === '' ? column : `${column} “${value}”`;
  return `${what} ${problem}. ${remedy}`;
}
