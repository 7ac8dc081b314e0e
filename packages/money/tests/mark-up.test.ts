import fc from 'fast-check';
import { expect, test } from 'vitest';
import { markedUpUnit, markUpBand } from '../src/index.ts';

const bands = [
  { costFrom: '100', percent: '20' },
  { costFrom: '0', percent: '60' },
  { costFrom: '10', percent: '35' },
] as const;

// Bands of cost are common practice, no source: these are the definition and its identities.
test.each([
  ['0', '60'],
  ['9.9999', '60'],
  ['10', '35'],
  ['99.9999', '35'],
  ['100', '20'],
  ['1000000', '20'],
])(
  'a cost of %s is marked up by %s per cent, in whatever order the bands stand',
  (cost, percent) => {
    expect(markUpBand(cost, bands).percent).toBe(percent);
  },
);

test('a price has four decimals, half away from zero', () => {
  expect(markedUpUnit('12', '35')).toBe('16.2');
  expect(markedUpUnit('0.0001', '50')).toBe('0.0002');
  expect(markedUpUnit('0.0001', '49')).toBe('0.0001');
  expect(markedUpUnit('4.20', '0')).toBe('4.2');
  expect(markedUpUnit('0', '60')).toBe('0');
});

test('a price is within half of the last decimal of cost × (1 + percent ÷ 100)', () => {
  const four = fc.integer({ min: 0, max: 2_000_000_000 });
  const text = (value: number) =>
    `${Math.floor(value / 10_000)}.${String(value % 10_000).padStart(4, '0')}`;
  const whole = (price: string) => {
    const [units = '0', decimals = ''] = price.split('.');
    return BigInt(units) * 10_000n + BigInt(decimals.padEnd(4, '0'));
  };
  fc.assert(
    fc.property(four, fc.integer({ min: 0, max: 9_000_000 }), (cost, percent) => {
      const price = whole(markedUpUnit(text(cost), text(percent)));
      // Everything in 10⁻¹⁰ of a unit: cost has four decimals, the factor six.
      const truth = BigInt(cost) * (1_000_000n + BigInt(percent));
      const off = price * 1_000_000n - truth;
      expect(2n * (off < 0n ? -off : off) <= 1_000_000n).toBe(true);
    }),
    { numRuns: 1000 },
  );
});

test('what cannot be marked up is refused', () => {
  expect(() => markUpBand('5', [{ costFrom: '10', percent: '35' }])).toThrow('let one begin at 0');
  expect(() => markUpBand('-1', bands)).toThrow('give 0 or more');
  expect(() => markedUpUnit('1', '-1')).toThrow('give 0 or more');
  expect(() => markedUpUnit('one', '1')).toThrow(RangeError);
});
