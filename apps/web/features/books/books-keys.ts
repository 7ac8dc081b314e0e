import type { SheetKeys } from '../../components/sheet-keys.ts';

/** Keys of an invoice. */
export const invoiceKeys: SheetKeys = [
  { keys: 'Enter', does: 'in a question or a payment: does it' },
  { keys: 'Esc', does: 'there: not now' },
];
