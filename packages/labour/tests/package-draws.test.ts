import { describe, expect, it } from 'vitest';
import { exponentiate } from '../src/exponentials.ts';
import { drawItems } from '../src/package-draws.ts';
import type { PackageItem } from '../src/package-item.ts';
import { fillNormals, gamma, seededBits, standardNormal, uniform } from '../src/random.ts';

const item = (
  location: number,
  loadings: readonly number[],
  more: Partial<PackageItem> & { df?: number } = {},
): PackageItem => ({
  predictive: { location, scale: 0.6, df: more.df ?? Number.POSITIVE_INFINITY },
  mean: 1,
  p80: 1,
  shared: loadings.map((loading, k) => ({ component: `c${k}`, loading })),
  ...more,
});

/** The formula as it stands above `drawItems`, one draw after the other, dice thrown in the order it says. */
function plainly(items: readonly PackageItem[], seed: number, draws: number): number[][] {
  const bits = seededBits(seed);
  const throws = (how: () => number) => Array.from({ length: draws }, how);
  const names = items.flatMap(({ shared = [] }) => shared.map(({ component }) => component));
  const common = [...new Set(names.filter((name, at) => names.indexOf(name) < at))].sort();
  const z = new Map(common.map((name) => [name, throws(() => standardNormal(bits))]));
  const events = new Map(items.flatMap(({ event }) => (event ? [[event.name, event]] : [])));
  const comes = new Map(
    [...events]
      .sort()
      .map(([name, { probability }]) => [
        name,
        throws(() => (uniform(bits) < probability ? 1 : 0)),
      ]),
  );
  const pools = new Map<number, number[]>();
  return items.map(({ predictive: { location, scale, df }, shared = [], event }) => {
    const kept = shared.filter(({ component }) => z.has(component));
    const own = Math.sqrt(scale ** 2 - kept.reduce((sum, one) => sum + one.loading ** 2, 0));
    if (df !== Infinity && !pools.has(df))
      pools.set(
        df,
        Array.from({ length: 8192 }, () => Math.sqrt(df / (2 * gamma(df / 2, bits)))),
      );
    return Array.from({ length: draws }, (_, i) => {
      const w = df === Infinity ? 1 : pools.get(df)![bits() >>> 19]!;
      const together = kept.reduce((sum, one) => sum + one.loading * z.get(one.component)![i]!, 0);
      const hours = Math.exp(location + w * (together + own * standardNormal(bits)));
      return event ? hours * comes.get(event.name)![i]! : hours;
    });
  });
}

const crack = { event: { name: 'crack', probability: 0.3 } };
const cases: Record<string, PackageItem[]> = {
  'one item': [item(0.3, [])],
  'items that share six things': Array.from({ length: 19 }, (_, at) =>
    item(at / 10 - 1, [0.3, 0.2, -0.1, 0.05, 0.1, 0.01 * at]),
  ),
  'findings that come together': [
    item(0, [0.3]),
    item(1, [0.2], crack),
    item(2, [0.4], crack),
    item(0, [], { event: { name: 'a leak', probability: 0.6 } }),
  ],
  'tails of two kinds': [
    item(0, [0.3], { df: 4 }),
    item(1, [0.3]),
    item(0, [0.1], { df: 9 }),
    item(1, [0.3], { df: 4 }),
  ],
};

describe('draws of items', () => {
  it.each(Object.entries(cases))('of %s are what the formula says, draw by draw', (_, items) => {
    for (const draws of [1, 999, 1000, 2357]) {
      const plain = plainly(items, 7, draws);
      const drawn = items.map(() => new Float64Array(draws));
      drawItems(items, { seed: 7, draws }, (index, some, from) => drawn[index]!.set(some, from));
      for (const [index, values] of plain.entries()) {
        for (const [draw, value] of values.entries()) {
          const off = Math.abs(drawn[index]![draw]! - value);
          // The last digits differ by the order in which terms are added.
          if (!(off <= 1e-13 * value)) expect(drawn[index]![draw]).toBe(value);
        }
      }
    }
  });
});

it('normals filled in at once are those that come one by one, and the dice go on from there', () => {
  const [one, other] = [seededBits(3), seededBits(3)];
  const values = new Float64Array(200_000);
  fillNormals(values, one);
  // Some are thrown again and some lie in the tail.
  expect(values.some((value) => Math.abs(value) > 3.4427)).toBe(true);
  expect(values.findIndex((value) => value !== standardNormal(other))).toBe(-1);
  expect(one()).toBe(other());
});

it('powers of e are those of Math.exp, wherever they are', () => {
  const bits = seededBits(5);
  const near = Array.from({ length: 100_000 }, () => 40 * standardNormal(bits));
  const edges = [0, -0, 1, -1, 699.9, -699.9, 709.7, 710, -745, -746, Infinity, -Infinity, NaN];
  const given = Float64Array.of(...near, ...edges);
  const powers = Float64Array.from(given);
  exponentiate(powers);
  for (const [at, x] of given.entries()) {
    const right = Math.exp(x);
    const fine = Object.is(powers[at], right) || Math.abs(powers[at]! / right - 1) < 1e-15;
    if (!fine) expect([x, powers[at]]).toEqual([x, right]);
  }
});
