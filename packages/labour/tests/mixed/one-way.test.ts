import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitMixed } from '../../src/index.ts';
import { seededBits, standardNormal } from '../../src/random.ts';

describe('balanced one-way layouts of any size', () => {
  it('have the answer of the method of moments, zero where that is below zero', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.integer({ min: 2, max: 5 }),
        fc.constantFrom(0, 0.05, 0.3, 3),
        fc.nat(1e6),
        (k, n, sd, seed) => {
          const bits = seededBits(seed);
          const of = Int32Array.from({ length: k * n }, (_, row) => Math.floor(row / n));
          const levels = Array.from({ length: k }, () => sd * standardNormal(bits));
          const y = Float64Array.from(of, (level) => levels[level]! + standardNormal(bits));
          const meanOf = (values: Float64Array) =>
            values.reduce((a, b) => a + b, 0) / values.length;
          const squares = (values: Float64Array, about: number) =>
            values.reduce((sum, value) => sum + (value - about) ** 2, 0);
          const parts = levels.map((_, level) => y.slice(level * n, level * n + n));
          const between = (n * squares(Float64Array.from(parts, meanOf), meanOf(y))) / (k - 1);
          const within =
            parts.reduce((sum, part) => sum + squares(part, meanOf(part)), 0) / (k * n - k);
          const variance = Math.max(0, (between - within) / n);
          const residual = variance > 0 ? within : squares(y, meanOf(y)) / (k * n - 1);
          const fit = fitMixed({
            y,
            fixed: [],
            groups: [{ name: 'a', levels: levels.map((_, level) => `l${level}`), of }],
            method: 'reml',
          });
          expect(Math.abs(fit.residual / residual - 1)).toBeLessThan(1e-9);
          const found = fit.groups[0]!.covariance[0]!;
          expect(Math.abs(found - variance)).toBeLessThan(
            1e-8 * Math.max(variance, 1e-2 * residual),
          );
          if (variance === 0) expect(found).toBe(0);
        },
      ),
      { numRuns: 300 },
    );
  }, 120_000);
});
