// How long the totals of a document of 500 lines take. In tests/: npx vitest run --config measure/vitest.config.ts
// document-totals. Wanted: at most 5 ms.
import { documentTotals } from '@fairlead/money';
import { expect, it } from 'vitest';

const RUNS = 51;
const lines = Array.from({ length: 500 }, (_, index) => ({
  id: `${index}`,
  quantity: `${1 + (index % 7)}.5`,
  unitPrice: `${10 + (index % 90)}.${String(index % 100).padStart(2, '0')}`,
  taxCategory: 'S' as const,
  taxRate: `${[0, 4, 8.5, 21][index % 4]}`,
  ...(index % 5 === 0 && { allowances: [{ amount: '0.37' }] }),
}));

it('prints how long the totals of 500 lines take', () => {
  const times = Array.from({ length: RUNS }, () => {
    const from = performance.now();
    const { gross } = documentTotals({ currency: 'USD', lines });
    expect(gross).toBeGreaterThan(0n);
    return performance.now() - from;
  });
  const [first = 0, ...warm] = times;
  const sorted = [...warm].sort((one, other) => one - other);
  console.info(
    `totals of 500 lines: first ${first.toFixed(1)} ms, then median ${sorted[RUNS >> 1]?.toFixed(2)} ms, slowest ${sorted.at(-1)?.toFixed(2)} ms of ${RUNS - 1}`,
  );
});
