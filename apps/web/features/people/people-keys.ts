import type { SheetKeys } from '../../components/sheet-keys.ts';

/** Keys of the sheet of the shop. */
export const shopKeys: SheetKeys = [
  { keys: 'Enter', does: 'in a form: saves what is written there' },
  { keys: 'Esc', does: 'in an open part: closes it, and leaves everything as it was' },
];
