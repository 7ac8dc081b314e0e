import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitMixed, type MixedFit, type MixedModel } from '../../src/index.ts';
import { seededBits, standardNormal, uniform } from '../../src/random.ts';

const numbered = (count: number) => Array.from({ length: count }, (_, level) => `l${level}`);

/** Two crossed groups, one with a slope, and a covariate, that follow from a seed; whole-number weights. */
function sample(seed: number): MixedModel & { weights: Float64Array } {
  const bits = seededBits(seed);
  const rows = 36;
  const normals = (length: number, scale = 1) =>
    Float64Array.from({ length }, () => scale * standardNormal(bits));
  const a = Int32Array.from({ length: rows }, (_, row) => row % 6);
  const b = Int32Array.from({ length: rows }, () => Math.floor(4 * uniform(bits)));
  const [x, ofA, slopeOfA, ofB, rest] = [
    normals(rows),
    normals(6),
    normals(6, 0.7),
    normals(4),
    normals(rows, 0.6),
  ];
  const y = x.map(
    (value, r) => 5 + 2 * value + ofA[a[r]!]! + slopeOfA[a[r]!]! * value + ofB[b[r]!]! + rest[r]!,
  );
  return {
    y,
    fixed: [{ name: 'x', values: x }],
    groups: [
      { name: 'a', levels: numbered(6), of: a, slopes: [{ name: 'x', values: x }] },
      { name: 'b', levels: numbered(4), of: b },
    ],
    method: seed % 2 === 0 ? 'reml' : 'ml',
    weights: Float64Array.from({ length: rows }, () => 1 + Math.floor(2 * uniform(bits))),
  };
}

/** Variances and covariances, effects, estimates: in units of y times `scale` (squared for variances). */
function expectSame(found: MixedFit, wanted: MixedFit, { scale = 1, shift = 0 } = {}): void {
  const near = (value: number, other: number, size: number) =>
    expect(Math.abs(value - other)).toBeLessThan(1e-6 * size);
  const variance = scale ** 2;
  near(found.residual, variance * wanted.residual, variance * wanted.residual);
  for (const [j, { name, estimate, se }] of wanted.fixed.entries()) {
    const moved = scale * estimate + (name === '(Intercept)' ? shift : 0);
    near(found.fixed[j]!.estimate, moved, scale * se);
    near(found.fixed[j]!.se, scale * se, scale * se);
  }
  for (const [g, { covariance, effects, levels, terms }] of wanted.groups.entries()) {
    const other = found.groups[g]!;
    const size = Math.max(...covariance) + wanted.residual;
    covariance.forEach((value, k) => near(other.covariance[k]!, variance * value, variance * size));
    for (const [l, level] of levels.entries()) {
      const at = other.levels.indexOf(level) * terms.length;
      for (let t = 0; t < terms.length; t += 1) {
        near(
          other.effects[at + t]!,
          scale * effects[l * terms.length + t]!,
          scale * Math.sqrt(size),
        );
      }
    }
  }
}

const take = <Values extends Float64Array | Int32Array>(values: Values, order: number[]) =>
  values.map((_, row) => values[order[row]!]!) as Values;

function reordered(model: MixedModel, order: number[]): MixedModel {
  const column = ({ name, values }: { name: string; values: Float64Array }) => ({
    name,
    values: take(values, order),
  });
  return {
    ...model,
    y: take(model.y, order),
    weights: model.weights && take(model.weights, order),
    fixed: model.fixed.map(column),
    groups: model.groups.map((group) => ({
      ...group,
      of: group.of instanceof Int32Array ? take(group.of, order) : group.of,
      slopes: group.slopes?.map(column),
    })),
  };
}

const seeds = fc.nat(1e6);
const some = { numRuns: 25 };

describe('a fit', () => {
  it('does not depend on the order of rows or of levels', () => {
    fc.assert(
      fc.property(
        seeds,
        fc.shuffledSubarray([...Array(36).keys()], { minLength: 36 }),
        (seed, order) => {
          const model = sample(seed);
          const moved = reordered(model, order);
          const groups = moved.groups.map((group) => ({
            ...group,
            levels: group.levels.toReversed(),
            of: (group.of as Int32Array).map((level) => group.levels.length - 1 - level),
          }));
          expectSame(fitMixed({ ...moved, groups }), fitMixed(model));
        },
      ),
      some,
    );
  }, 120_000);

  it('of y·k has effects times k and variances times k²; its criterion moves by the Jacobian', () => {
    fc.assert(
      fc.property(seeds, fc.constantFrom(1e-6, 0.3, 60, 1e9), (seed, k) => {
        const model = sample(seed);
        const [fit, other] = [model, { ...model, y: model.y.map((value) => value * k) }].map(
          (one) => fitMixed(one),
        );
        expectSame(other!, fit!, { scale: k });
        const degrees = model.method === 'reml' ? 34 : 36;
        expect(other!.criterion).toBeCloseTo(fit!.criterion + 2 * degrees * Math.log(k), 6);
      }),
      some,
    );
  }, 120_000);

  it('of y + c has another intercept and nothing else', () => {
    fc.assert(
      fc.property(seeds, fc.constantFrom(-7, 0.1, 1000), (seed, c) => {
        const model = sample(seed);
        const moved = { ...model, y: model.y.map((value) => value + c) };
        expectSame(fitMixed(moved), fitMixed(model), { shift: c });
      }),
      some,
    );
  }, 120_000);

  it('with a covariate in other units and from another origin has the same variances', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const model = sample(seed);
        const values = model.fixed[0]!.values.map((value) => 2020 + value / 365);
        const years = { name: 'x', values };
        const fit = fitMixed(model);
        const other = fitMixed({
          ...model,
          fixed: [years],
          groups: [{ ...model.groups[0]!, slopes: [years] }, model.groups[1]!],
        });
        const near = (found: number, wanted: number, size = wanted) =>
          expect(Math.abs(found - wanted)).toBeLessThan(1e-6 * Math.abs(size) + 1e-12);
        near(other.residual, fit.residual);
        // At x = 0, which is 2020 there, both must say the same of the shop and of every level.
        const atZero = (one: ArrayLike<number>, l = 0) => one[2 * l]! + 2020 * one[2 * l + 1]!;
        const estimates = other.fixed.map(({ estimate }) => estimate);
        near(atZero(estimates), fit.fixed[0]!.estimate);
        for (let l = 0; l < 6; l += 1) {
          near(atZero(other.groups[0]!.effects, l), fit.groups[0]!.effects[2 * l]!, 1);
        }
        near(other.fixed[1]!.estimate, 365 * fit.fixed[1]!.estimate);
        const [, , , slope] = fit.groups[0]!.covariance;
        near(
          other.groups[0]!.covariance[3]!,
          365 ** 2 * slope!,
          365 ** 2 * (slope! + fit.residual),
        );
        const wanted = fit.criterion - (model.method === 'reml' ? 2 * Math.log(365) : 0);
        expect(other.criterion).toBeCloseTo(wanted, 6);
      }),
      some,
    );
  }, 120_000);

  it('with shares of 1 is the plain one, and a row that nobody shares belongs to no level', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const model = sample(seed);
        const groups = model.groups.map((group) => ({
          ...group,
          of: {
            start: Int32Array.from({ length: 37 }, (_, row) => row),
            level: group.of as Int32Array,
            share: new Float64Array(36).fill(1),
          },
        }));
        expectSame(fitMixed({ ...model, groups }), fitMixed(model));
      }),
      some,
    );
    const model = sample(4);
    const start = Int32Array.from({ length: 37 }, (_, row) => Math.min(row, 30));
    const of = {
      start,
      level: (model.groups[1]!.of as Int32Array).slice(0, 30),
      share: new Float64Array(30).fill(1),
    };
    const fit = fitMixed({ ...model, groups: [{ name: 'b', levels: numbered(4), of }] });
    expect(fit.groups[0]!.effects.every(Number.isFinite)).toBe(true);
  }, 120_000);

  it('with a weight of 2 has the effects of the row given twice, at the same variances', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const model = sample(seed);
        // Variances held by priors that leave no room, as a repeated row also counts twice for the residual.
        const spread = (mean: number) => ({ mean, sd: 1e-4 });
        const held: MixedModel = {
          ...model,
          groups: [{ name: 'b', levels: numbered(4), of: model.groups[1]!.of, spread: spread(0) }],
          residualSpread: spread(-0.5),
        };
        const order = [...model.weights].flatMap((weight, row) => Array<number>(weight).fill(row));
        const pick = (values: Float64Array) => Float64Array.from(order, (row) => values[row]!);
        const twice: MixedModel = {
          ...held,
          y: pick(model.y),
          weights: undefined,
          fixed: [{ name: 'x', values: pick(model.fixed[0]!.values) }],
          groups: [
            {
              ...held.groups[0]!,
              of: Int32Array.from(order, (row) => (held.groups[0]!.of as Int32Array)[row]!),
            },
          ],
        };
        const [one, two] = [fitMixed(held), fitMixed(twice)];
        for (const j of [0, 1]) {
          expect(one.fixed[j]!.estimate).toBeCloseTo(two.fixed[j]!.estimate, 4);
          expect(one.fixed[j]!.se).toBeCloseTo(two.fixed[j]!.se, 4);
        }
        one.groups[0]!.effects.forEach((effect, l) =>
          expect(effect).toBeCloseTo(two.groups[0]!.effects[l]!, 4),
        );
      }),
      some,
    );
  }, 120_000);

  it('leaves its input as it was, and gives the same digits every time', () => {
    const model = sample(12);
    const copy = structuredClone(model);
    expect(fitMixed(model)).toEqual(fitMixed(copy));
    expect(model).toEqual(copy);
  });

  it('begun at a former fit ends where it ended', () => {
    const { groups, ...model } = sample(8);
    const plain = { ...model, groups: groups.map((group) => ({ ...group, slopes: [] })) };
    const fit = fitMixed(plain);
    const again = fitMixed({ ...plain, startAt: fit.relative });
    expectSame(again, fit);
    expect(again.iterations).toBeLessThanOrEqual(fit.iterations);
    expectSame(fitMixed({ ...plain, startAt: [0, 0] }), fit);
  });
});
