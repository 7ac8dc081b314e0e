import fc from 'fast-check';
import { expect, it } from 'vitest';
import { revisionDifferences } from '../features/quoting/revision-differences.ts';

const line = (over: Record<string, unknown>) => ({
  title: 'Replace the hose',
  pricing: 'time_and_materials',
  quantity: '1',
  likely: '20000',
  high: '30000',
  ...over,
});

it('names what came, what went, and what changed besides the amount', () => {
  const hose = line({ task: { id: 'hose' } });
  const clamp = line({ part: { id: 'clamp' }, title: 'Clamp', quantity: '2.000', likely: '900' });
  const freight = line({ charge: 'freight', title: 'Freight', likely: '4000' });
  const rows = revisionDifferences(
    [hose, clamp, freight, line({ task: { id: 'wash' }, title: 'Wash' })],
    [
      line({ task: { id: 'hose' }, pricing: 'fixed', likely: '25000' }),
      { ...clamp, quantity: '3', likely: '1350' },
      line({ task: { id: 'wash' }, title: 'Wash' }),
      line({ task: { id: 'belt' }, title: 'Belt', likely: '8000' }),
    ],
  );
  expect(rows.map(({ title, from, to, words }) => [title, from, to, words])).toEqual([
    ['Replace the hose', 20000n, 25000n, 'at a fixed price instead of by time and materials'],
    ['Clamp', 900n, 1350n, '3 instead of 2.000'],
    ['Belt', null, 8000n, 'added'],
    ['Freight', 4000n, null, 'taken off'],
  ]);
});

it('the changes of the lines add up to the later lines less the earlier, for any two revisions', () => {
  const lines = fc.array(
    fc.record({
      title: fc.constantFrom('One', 'Two'),
      pricing: fc.constantFrom('fixed', 'time_and_materials'),
      quantity: fc.constant('1'),
      likely: fc.bigInt({ min: 0n, max: 10n ** 9n }).map(String),
      high: fc.constant('1'),
      task: fc.option(fc.record({ id: fc.constantFrom('a', 'b', 'c') })),
    }),
    { maxLength: 8 },
  );
  const sum = (all: readonly { likely: string }[]) =>
    all.reduce((total, { likely }) => total + BigInt(likely), 0n);
  fc.assert(
    fc.property(lines, lines, (from, to) => {
      const rows = revisionDifferences(from, to);
      const changes = rows.reduce((total, row) => total + (row.to ?? 0n) - (row.from ?? 0n), 0n);
      expect(changes).toBe(sum(to) - sum(from));
    }),
  );
});
