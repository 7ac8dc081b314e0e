import { expect, it } from 'vitest';
import { eInvoiceHref, paperHref } from '../lib/paper-href.ts';

it('leads to a paper, on the size asked for', () => {
  expect(paperHref('entry', 'abc', 'sheet')).toBe('/paper/entry/abc.pdf?paper=sheet');
  expect(paperHref('quote', 'a b')).toBe('/paper/quote/a%20b.pdf');
  expect(eInvoiceHref('a b')).toBe('/paper/invoice/a%20b.xml');
});
