import fc from 'fast-check';
import { expect, it } from 'vitest';
import { givenTorque } from '../../../apps/api/src/safety/given-torque.ts';
import { countStates } from '../../../apps/api/src/safety/tool-counts.ts';
import { namesAfter } from '../../../apps/web/features/safety/counts-now.ts';
import { settingOf } from '../../../apps/web/features/safety/torque-reckoned.ts';

/** What a telephone reckons by itself with no network is what the shop says when it has it. */

const line = fc.record({
  name: fc.constantFrom('Rags', 'rags', 'Mirror', 'Torch', 'Pin punch'),
  number: fc.integer({ min: 0, max: 3 }),
});
const lines = fc.uniqueArray(line, {
  selector: ({ name }) => name.toLowerCase(),
  minLength: 1,
  maxLength: 4,
});
const count = fc.oneof(
  lines
    .map((given) => given.map(({ name, number }) => ({ name, number: number + 1 })))
    .map((given) => ({ kind: 'out' as const, lines: given })),
  lines.map((given) => ({ kind: 'back' as const, lines: given })),
  fc.record({
    kind: fc.constant('accounted_for' as const),
    lines: fc.constant<{ name: string; number: number }[]>([]),
  }),
);

it('counts of tools come to the same on the bench and at the shop, whatever is counted in which order', () => {
  fc.assert(
    fc.property(fc.array(count, { minLength: 1, maxLength: 8 }), (counts) => {
      const [shop] = countStates(
        counts.map(({ kind, lines: given }, index) => ({
          ...{ kind, itemId: null, item: null, at: new Date(index), by: { name: 'M' } },
          clientEventId: `${index}`,
          lines: given.toSorted((one, other) => (one.name < other.name ? -1 : 1)),
        })),
      );
      let bench: ReturnType<typeof namesAfter> = [];
      for (const each of counts) bench = namesAfter(bench, each);
      expect(bench).toEqual(shop?.names);
      expect(bench.length === 0).toBe(shop?.agrees);
    }),
    { numRuns: 2000 },
  );
});

it('a wrench is set to the same hundredth by the bench and by the shop, and not at all by both', () => {
  const hundredths = (most: number) =>
    fc.integer({ min: 1, max: most * 100 }).map((each) => (each / 100).toFixed(2));
  const arm = fc.record({
    lever: hundredths(40),
    extension: fc.integer({ min: -1500, max: 1500 }).map((each) => (each / 100).toFixed(2)),
  });
  fc.assert(
    fc.property(
      hundredths(3000),
      fc.option(hundredths(60)),
      fc.option(arm),
      (torque, drag, adapter) => {
        const { lever, extension } = adapter ?? { lever: null, extension: null };
        const asked = { torque, drag, lever, extension };
        let shop: number | null;
        try {
          shop = Number(givenTorque({ ...asked, unit: 'in_lb' }).setting);
        } catch {
          shop = null;
        }
        const bench = settingOf(asked);
        expect(bench === null ? null : Number(bench)).toBe(shop);
      },
    ),
    { numRuns: 5000 },
  );
});
