/** The credit of a whole invoice is what remains of it: EN 16931-1, BR-CO-16 and BR-CO-17. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { closingCredit, minor, type TaxCategory } from '../src/index.ts';

const rates = ['0', '4', '7', '7.25', '19'];
const taxed = (net: bigint, taxRate: string) => ({
  ...{ net: minor(net), taxRate },
  taxCategory: (taxRate === '0' ? 'E' : 'S') as TaxCategory,
});
/** Base × rate in whole numbers, half away from zero; the lines of one rate together. */
const taxOf = (lines: readonly { net: bigint; taxRate: string }[]) =>
  rates.reduce((sum, rate) => {
    const base = lines
      .filter(({ taxRate }) => taxRate === rate)
      .reduce((all, { net }) => all + net, 0n);
    const of = base * BigInt(Math.round(Number(rate) * 100));
    return sum + (of < 0n ? -((-of + 5_000n) / 10_000n) : (of + 5_000n) / 10_000n);
  }, 0n);
const total = (lines: readonly { net: bigint }[]) => lines.reduce((sum, { net }) => sum + net, 0n);

it('10,000 random invoices with cores given back before: everything closes at nothing, and each tax is that of its own lines', () => {
  const lines = fc.array(
    fc.tuple(
      fc.bigInt({ min: 0n, max: 3_000_000n }),
      fc.constantFrom(...rates),
      fc.nat({ max: 3 }),
    ),
    { minLength: 1, maxLength: 8 },
  );
  let rounded = 0;
  fc.assert(
    fc.property(lines, fc.integer({ min: -2, max: 2 }), (drawn, rounding) => {
      const invoice = drawn.map(([net, rate]) => taxed(net, rate));
      // Each line may be given back in one of three notes, whole or the half of it.
      const notes = [1, 2, 3].map((note) =>
        drawn.flatMap(([net, rate, given]) =>
          given === note ? [taxed(-(note === 1 ? net : net / 2n), rate)] : [],
        ),
      );
      const standing = [
        { lines: invoice, gross: minor(total(invoice) + taxOf(invoice) + BigInt(rounding)) },
        ...notes.map((own) => ({ lines: own, gross: minor(total(own) + taxOf(own)) })),
      ];
      const closing = closingCredit('USD', Object.freeze(standing));
      expect(standing.reduce((sum, { gross }) => sum + gross, closing.gross as bigint)).toBe(0n);
      const own = standing.flatMap((each) => each.lines);
      expect(closing.net).toBe(-total(own));
      expect(closing.tax).toBe(-taxOf(own));
      expect(closing.net + closing.tax + closing.rounding).toBe(closing.gross);
      if (closing.rounding !== BigInt(-rounding)) rounded += 1;
    }),
    { numRuns: 10_000 },
  );
  // It does happen.
  expect(rounded).toBeGreaterThan(500);
}, 60_000);
