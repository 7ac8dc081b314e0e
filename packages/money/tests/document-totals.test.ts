import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type DocumentLine,
  documentTotals,
  lineNet,
  type PricedDocument,
  sumOf,
} from '../src/index.ts';

const decimal = (places: number, max: bigint) =>
  fc.bigInt({ min: -max, max }).map((value) => new Decimal(`${value}e-${places}`).toFixed());
const taxed = fc.constantFrom(
  { taxCategory: 'S' as const, taxRate: '25' },
  { taxCategory: 'S' as const, taxRate: '7.25' },
  { taxCategory: 'S' as const, taxRate: '7.250' },
  { taxCategory: 'E' as const, taxRate: '0' },
);
const priced = fc.record({
  quantity: decimal(3, 10n ** 6n),
  unitPrice: decimal(4, 10n ** 9n),
  taxed,
});
const adjustment = fc
  .record({ amount: decimal(2, 10n ** 6n), taxed })
  .map(({ amount, taxed: tax }) => ({ amount, ...tax }));
const anyDocument: fc.Arbitrary<PricedDocument> = fc
  .record({
    lines: fc.array(priced, { maxLength: 12 }),
    allowances: fc.array(adjustment, { maxLength: 3 }),
    charges: fc.array(adjustment, { maxLength: 3 }),
    paid: decimal(2, 10n ** 6n),
  })
  .map(({ lines, ...rest }) => ({
    currency: 'USD',
    lines: lines.map(
      ({ taxed: tax, ...line }, index): DocumentLine => ({
        id: String(index + 1),
        ...line,
        ...tax,
      }),
    ),
    ...rest,
  }));

test('10,000 random documents keep EN 16931 BR-CO-10 to 17, whatever the order of their lines', {
  timeout: 60_000,
}, () => {
  fc.assert(
    fc.property(anyDocument, (document) => {
      const total = documentTotals(document);
      expect(total.lineSum).toBe(sumOf(total.lines.map(({ net }) => net)));
      expect(total.net).toBe(total.lineSum - total.allowances + total.charges);
      expect(sumOf(total.tax.map(({ base }) => base))).toBe(total.net);
      expect(total.taxTotal).toBe(sumOf(total.tax.map(({ amount }) => amount)));
      expect(total.gross).toBe(total.net + total.taxTotal);
      for (const { base, rate, amount } of total.tax) {
        // Independent of the package's own rounding: |amount − base × rate ÷ 100| ≤ ½ of a cent.
        const off = new Decimal(amount.toString()).minus(
          new Decimal(base.toString()).times(rate).div(100),
        );
        expect(off.abs().lte('0.5')).toBe(true);
      }
      const turned = { ...document, lines: [...document.lines].reverse() };
      const again = documentTotals(turned);
      expect({ ...again, lines: [] }).toEqual({ ...total, lines: [] });
    }),
    { numRuns: 10_000 },
  );
});

test('a line is the decimal product rounded once, also when priced per more than one', () => {
  fc.assert(
    fc.property(
      decimal(3, 10n ** 8n),
      decimal(5, 10n ** 10n),
      fc.integer({ min: 1, max: 999 }),
      (quantity, unitPrice, base) => {
        const Wide = Decimal.clone({ precision: 90, rounding: Decimal.ROUND_HALF_UP });
        const expected = new Wide(quantity).mul(unitPrice).div(base).mul(100).toFixed(0);
        const net = lineNet({ quantity, unitPrice, priceBaseQuantity: String(base) }, 'USD');
        expect(net).toBe(BigInt(expected));
      },
    ),
    { numRuns: 1000 },
  );
});

test.each([
  ['0.005', 1n],
  ['-0.005', -1n],
  ['0.0049999', 0n],
  ['-0.0049999', 0n],
])('a unit price of %s USD rounds half away from zero to %d cents', (unitPrice, cents) => {
  expect(lineNet({ quantity: '1', unitPrice }, 'USD')).toBe(cents);
});

test('just under half a cent stays under, 36 digits out', () => {
  const unitPrice = '0.004999999999999999';
  expect(lineNet({ quantity: '1', unitPrice }, 'USD')).toBe(0n);
  expect(
    lineNet({ quantity: '1', unitPrice, priceBaseQuantity: '0.999999999999999999' }, 'USD'),
  ).toBe(0n);
});

test('yen have no decimals and dinars three', () => {
  expect(lineNet({ quantity: '3', unitPrice: '33.5' }, 'JPY')).toBe(101n);
  expect(lineNet({ quantity: '3', unitPrice: '0.3335' }, 'KWD')).toBe(1001n);
});

test('an empty document comes to nothing', () => {
  const total = documentTotals({ currency: 'USD', lines: [] });
  expect([total.net, total.taxTotal, total.gross, total.due, total.tax]).toEqual([
    0n,
    0n,
    0n,
    0n,
    [],
  ]);
});

const line = { id: '1', quantity: '1', unitPrice: '1', taxCategory: 'S', taxRate: '0' } as const;
const refused: [string, PricedDocument][] = [
  ['two lines with the id 1', { currency: 'USD', lines: [line, line] }],
  ['at -1 %', { currency: 'USD', lines: [{ ...line, taxRate: '-1' }] }],
  ['E at 5 %', { currency: 'USD', lines: [{ ...line, taxCategory: 'E', taxRate: '5' }] }],
  ['category "X"', { currency: 'USD', lines: [{ ...line, taxCategory: 'X' as 'S' }] }],
  ['currency "XXX"', { currency: 'XXX' as 'USD', lines: [line] }],
  ['price base quantity', { currency: 'USD', lines: [{ ...line, priceBaseQuantity: '0' }] }],
  ['2 decimal places', { currency: 'USD', lines: [line], paid: '0.001' }],
];
test.each(refused)('refuses %s', (message, document) => {
  expect(() => documentTotals(document)).toThrow(RangeError);
  expect(() => documentTotals(document)).toThrow(message);
});
