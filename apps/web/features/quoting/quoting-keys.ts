import type { SheetKeys } from '../../components/sheet-keys.ts';

/** Keys of a quote that is being made. */
export const quoteKeys: SheetKeys = [
  { keys: '↓ ↑', does: 'in aircraft, package, task or part: through what fits' },
  { keys: 'Enter', does: 'there: takes the one that is marked' },
  { keys: 'Esc', does: 'there: closes the list' },
  { keys: 'Ctrl + Enter', does: 'anywhere in the quote: sends it, as the button does' },
];
