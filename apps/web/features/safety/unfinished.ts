import type { ItemOnSheet } from '../work/item-documents.ts';

const listed = new Intl.ListFormat('en-GB');

/**
 * Why an item cannot be finished yet, as far as this device knows; null: nothing is left. The shop asks the same again and
 * has the last word; said here at once, it is read before the page is left.
 */
export function unfinishedWords({
  stoppedHere,
  checklist,
}: Pick<ItemOnSheet, 'stoppedHere' | 'checklist'>): string | null {
  const [left] = stoppedHere;
  if (left !== undefined)
    return `${left.by.name} stopped here${left.loose === '' ? '' : ` (loose: ${left.loose})`} and nobody has taken it over. Read it above, and take it over.`;
  const [first, ...more] = checklist.filter(({ initials }) => initials === null);
  if (first === undefined) return null;
  const others = more.map(({ number }) => String(number));
  const rest =
    others.length === 0
      ? ''
      : `; neither ${others.length === 1 ? 'has line' : 'have lines'} ${listed.format(others)}`;
  return `line ${first.number} of its list, “${first.words}”, has no initials${rest}. Initial each line that you have done.`;
}
