/** One bill among several payers: EN 16931-1, BR-CO-16 and BR-CO-17; the largest remainder. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LineToSplit, minor, nothing, type PayerTakes, splitPayers } from '../src/index.ts';

const line = (id: string, net: bigint, taxRate = '7'): LineToSplit => ({
  ...{ id, net: minor(net), taxRate },
  taxCategory: taxRate === '0' ? 'Z' : 'S',
});
const payer = (id: string, over: Partial<PayerTakes> = {}): PayerTakes => ({
  ...{ id, lines: null, take: { kind: 'whole' }, deductible: nothing },
  ...over,
});

describe('a bill split among its payers', () => {
  it('takes whole lines, less the deductible, which stays with the customer', () => {
    // 1,000.00 and 200.00 of the hail; 500.00 deductible: the insurer pays 700.00, shared 5 : 1.
    const split = splitPayers(
      'USD',
      [line('dents', 100_000n), line('paint', 20_000n), line('oil', 5_000n)],
      [payer('insurer', { lines: ['dents', 'paint'], deductible: minor(50_000n) })],
    );
    expect(split.payers[0]).toEqual({
      id: 'insurer',
      // 70,000 × 100,000 ÷ 120,000 = 58,333.33, × 20,000 ÷ 120,000 = 11,666.67: the larger remainder gets the cent.
      lines: [
        { id: 'dents', net: 58_333n },
        { id: 'paint', net: 11_667n },
      ],
      ...{ net: 70_000n, tax: 4_900n, gross: 74_900n },
    });
    expect(split.rest).toMatchObject({ net: 55_000n, tax: 3_850n, gross: 58_850n, rounding: 0n });
  });

  it('carries as rounding what taxes rounded apart add to more than tax rounded once', () => {
    // 7 % of 0.50 is 0.035, half up 0.04, twice is 0.08; of 1.00 it is 0.07.
    const split = splitPayers(
      'USD',
      [line('a', 100n)],
      [payer('w', { take: { kind: 'percent', percent: '50' } })],
    );
    expect(split.payers[0]).toMatchObject({ net: 50n, tax: 4n, gross: 54n });
    expect(split.rest).toMatchObject({ net: 50n, tax: 4n, gross: 54n, rounding: -1n });
    expect(split.whole).toEqual({ net: 100n, tax: 7n, gross: 107n });
  });

  it('taxes each payer as they are taxed: an exemption of the insurer is not the customer’s, nor the other way', () => {
    const exempt = { taxCategory: 'E', taxRate: '0' } as const;
    const half = { take: { kind: 'percent', percent: '50' } } as const;
    const insurerExempt = splitPayers(
      'USD',
      [line('a', 10_000n)],
      [payer('insurer', { ...half, taxed: new Map([['a', exempt]]) })],
    );
    expect(insurerExempt.payers[0]).toMatchObject({ net: 5_000n, tax: 0n, gross: 5_000n });
    expect(insurerExempt.rest).toMatchObject({ net: 5_000n, tax: 350n, gross: 5_350n });
    expect(insurerExempt.whole).toEqual({ net: 10_000n, tax: 350n, gross: 10_350n });
    const customerExempt = splitPayers(
      'USD',
      [{ id: 'a', net: minor(10_000n), ...exempt }],
      [payer('insurer', { ...half, taxed: new Map([['a', line('a', 0n)]]) })],
    );
    expect(customerExempt.payers[0]).toMatchObject({ net: 5_000n, tax: 350n });
    expect(customerExempt.rest).toMatchObject({ net: 5_000n, tax: 0n });
  });

  it('never takes more than is left, nor anything below a deductible', () => {
    const bill = [line('a', 10_000n)];
    const sum = (amount: bigint) => ({ kind: 'sum', amount: minor(amount) }) as const;
    const split = splitPayers('USD', bill, [
      payer('first', { take: sum(8_000n) }),
      payer('second', { take: sum(8_000n) }),
      payer('third'),
      payer('fourth', { deductible: minor(1n) }),
    ]);
    expect(split.payers.map(({ net }) => net)).toEqual([8_000n, 2_000n, 0n, 0n]);
    expect(split.rest.net).toBe(0n);
    expect(
      splitPayers('USD', bill, [payer('one', { deductible: minor(10_000n) })]).payers[0]?.lines,
    ).toEqual([]);
  });

  it('10,000 random bills: every line and every sum due add to the whole to the cent, and each tax is that of its own lines', () => {
    const rates = ['0', '4', '7', '7.25', '19'];
    const lines = fc
      .array(fc.tuple(fc.bigInt({ min: 0n, max: 5_000_000n }), fc.constantFrom(...rates)), {
        minLength: 1,
        maxLength: 8,
      })
      .map((drawn) => drawn.map(([net, rate], index) => line(`l${index}`, net, rate)));
    const take = fc.oneof(
      fc.constant({ kind: 'whole' as const }),
      fc
        .integer({ min: 0, max: 1_000_000 })
        .map((of) => ({ kind: 'percent' as const, percent: (of / 10_000).toFixed(4) })),
      fc
        .bigInt({ min: 0n, max: 4_000_000n })
        .map((amount) => ({ kind: 'sum' as const, amount: minor(amount) })),
    );
    const takes = fc.array(
      fc.tuple(
        take,
        fc.option(fc.nat({ max: 255 }), { nil: null }),
        fc.constantFrom(0n, 0n, 1n, 25_000n),
        // Which lines they are exempt on.
        fc.constantFrom(0, 0, 255, 5),
      ),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(lines, takes, (bill, drawn) => {
        const payers = drawn.map(([how, mask, deductible, exempt], index) =>
          payer(`p${index}`, {
            take: how,
            lines:
              mask === null
                ? null
                : bill.filter((_, place) => (mask >> place) & 1).map(({ id }) => id),
            deductible: minor(deductible),
            taxed: new Map(
              bill
                .filter((_, place) => (exempt >> place) & 1)
                .map(({ id }) => [id, { taxCategory: 'E', taxRate: '0' }]),
            ),
          }),
        );
        const split = splitPayers('USD', Object.freeze(bill), Object.freeze(payers));
        for (const { id, net } of bill) {
          const parts = [...split.payers, split.rest].flatMap(({ lines: own }) =>
            own.filter((part) => part.id === id),
          );
          expect(parts.reduce((sum, part) => sum + part.net, 0n)).toBe(net);
          for (const part of parts) expect(part.net >= 0n).toBe(true);
        }
        const all = [...split.payers, split.rest];
        expect(all.reduce((sum, { gross }) => sum + gross, split.rest.rounding as bigint)).toBe(
          split.whole.gross,
        );
        expect(all.reduce((sum, { net }) => sum + net, 0n)).toBe(split.whole.net);
        // Each payer's tax by the rule, in whole numbers: base × rate in 10⁻⁴ per cent, half away from zero.
        for (const [index, { lines: own, tax, net, gross }] of all.entries()) {
          let byRate = 0n;
          const rateOf = (id: string) =>
            payers[index]?.taxed?.get(id)?.taxRate ?? bill.find((of) => of.id === id)?.taxRate;
          for (const rate of rates) {
            const base = own
              .filter(({ id }) => rateOf(id) === rate)
              .reduce((sum, part) => sum + part.net, 0n);
            byRate += (base * BigInt(Math.round(Number(rate) * 100)) + 5_000n) / 10_000n;
          }
          expect(tax).toBe(byRate);
          expect(gross).toBe(net + tax);
        }
        // Half a minor unit for each rounding that one bill does not do.
        const most = BigInt(rates.length * (payers.length + 2));
        expect(split.rest.rounding * 2n <= most && split.rest.rounding * 2n >= -most).toBe(true);
      }),
      { numRuns: 10_000 },
    );
  }, 60_000);
});

it.each([
  [() => splitPayers('USD', [line('a', -1n)], []), 'Cannot split line a of -1: give 0 or more'],
  [
    () => splitPayers('USD', [line('a', 1n), line('a', 1n)], []),
    'Cannot split two lines with the id a',
  ],
  [
    () => splitPayers('USD', [], [payer('p'), payer('p')]),
    'Cannot split among two payers with the id p',
  ],
  [
    () => splitPayers('USD', [], [payer('p', { lines: ['x'] })]),
    'Cannot give payer p the line x: there is none',
  ],
  [
    () => splitPayers('USD', [], [payer('p', { deductible: minor(-1n) })]),
    'Cannot deduct -1 for payer p',
  ],
  [
    () => splitPayers('USD', [], [payer('p', { take: { kind: 'percent', percent: '101' } })]),
    'Cannot give payer p 101 per cent: give 0 to 100',
  ],
  [
    () => splitPayers('USD', [], [payer('p', { take: { kind: 'sum', amount: minor(-1n) } })]),
    'Cannot give payer p a sum of -1',
  ],
])('%s is refused', (work, words) => {
  expect(work).toThrow(words);
});
