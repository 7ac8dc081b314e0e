import { expect, test } from 'vitest';
import { unpaidWords } from '../features/records/records-words.ts';

const issued = { state: 'issued', credits: null } as const;
const credited = { state: 'credited', credits: null } as const;
const creditNote = { state: 'issued', credits: {} } as const;
const words = (unpaid: string, ...invoices: Parameters<typeof unpaidWords>[0]['invoices']) =>
  unpaidWords({ unpaid, invoices }, 'USD');

test('a hand-back says what is not paid, what was paid too much, and that nothing was billed', () => {
  expect(words('51656', issued)).toBe('Not paid yet: 516.56 USD.');
  expect(words('-100', credited, creditNote)).toBe('To be paid back to the owner: 1.00 USD.');
  expect(words('0', issued)).toBeNull();
  const unbilled = 'No invoice is issued for this order yet.';
  expect(words('0')).toBe(unbilled);
  expect(words('0', { state: 'draft' })).toBe(unbilled);
  expect(words('0', credited, creditNote)).toBe(unbilled);
});
