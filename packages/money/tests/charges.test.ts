import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { markedUp, minor, nothing, suppliesFor } from '../src/index.ts';

const amounts = fc.bigInt({ min: 0n, max: 10n ** 10n }).map(minor);
/** Per cent with at most four decimals, as they are kept. */
const percents = fc.integer({ min: 0, max: 3_000_000 }).map((of) => (of / 10_000).toFixed(4));

describe('a mark-up', () => {
  it('adds its share, half a cent away from zero', () => {
    // 420.50 × 15 % = 63.075 → 63.08; 0.10 × 5 % = 0.005 → 0.01
    expect(markedUp(minor(42_050n), '15', 'USD')).toBe(48_358n);
    expect(markedUp(minor(10n), '5', 'USD')).toBe(11n);
    expect(markedUp(minor(420n), '12.5', 'JPY')).toBe(473n);
  });
  it('is the cost itself at nothing, and never falls as cost or share rise', () => {
    fc.assert(
      fc.property(amounts, amounts, percents, percents, (one, other, low, high) => {
        expect(markedUp(one, '0', 'USD')).toBe(one);
        const [small, large] = one < other ? [one, other] : [other, one];
        expect(markedUp(small, low, 'USD') <= markedUp(large, low, 'USD')).toBe(true);
        const [less, more] = Number(low) < Number(high) ? [low, high] : [high, low];
        expect(markedUp(one, less, 'USD') <= markedUp(one, more, 'USD')).toBe(true);
      }),
    );
  });
  it('is within half a minor unit of exact hundredths of hundredths', () => {
    fc.assert(
      fc.property(amounts, percents, (cost, percent) => {
        // In 10⁻⁶ of a minor unit, as whole numbers.
        const of = BigInt(percent.replace('.', ''));
        const away = markedUp(cost, percent, 'USD') * 1_000_000n - cost * (1_000_000n + of);
        expect(away <= 500_000n && away >= -500_000n).toBe(true);
      }),
    );
  });
});

describe('shop supplies', () => {
  it('are a share of the labour up to their cap', () => {
    const labour = minor(124_000n);
    expect(suppliesFor({ labour, percent: '3' }, 'USD')).toBe(3720n);
    expect(suppliesFor({ labour, percent: '3', atMost: minor(3000n) }, 'USD')).toBe(3000n);
    expect(suppliesFor({ labour: nothing, percent: '3' }, 'USD')).toBe(0n);
  });
});

it.each([
  [() => markedUp(minor(-1n), '5', 'USD'), 'Cannot charge for -1 minor units: give 0 or more'],
  [() => markedUp(minor(1n), '-5', 'USD'), 'Cannot charge -5 per cent: give 0 or more'],
  [() => markedUp(minor(1n), 'much', 'USD'), 'Cannot read "much" as percent'],
  [
    () => suppliesFor({ labour: nothing, percent: '1', atMost: minor(-2n) }, 'USD'),
    'Cannot cap supplies at -2 minor units: give 0 or more',
  ],
])('%s is refused', (work, words) => {
  expect(work).toThrow(words);
});
