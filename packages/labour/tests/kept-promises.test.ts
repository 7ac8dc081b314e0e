import { describe, expect, test } from 'vitest';
import { keptPromises } from '../src/index.ts';

const promises = (kept: number, late: number, grew = 0) => [
  ...Array.from({ length: kept }, () => ({ p50: 2, p80: 4, released: 4, grew: true })),
  ...Array.from({ length: late }, (_, index) => ({
    p50: 2,
    p80: 4,
    released: 5,
    grew: index < grew,
  })),
];

describe('promises against releases', () => {
  test('none: nothing can be said', () => {
    expect(keptPromises([])).toBeNull();
  });

  // Newcombe 1998, Stat. Med. 17(8), 857-872, Table I, method 3 (Wilson without correction), as published to four places.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (kept, of, low, high) => {
    const said = keptPromises(promises(kept, of - kept));
    expect(said?.interval.low).toBeCloseTo(low, 4);
    expect(said?.interval.high).toBeCloseTo(high, 4);
  });

  test.each([
    [0, 1, 'too_few'],
    [8, 2, 'too_few'],
    [40, 10, 'agrees'],
    [20, 30, 'too_early'],
    [60, 2, 'too_late'],
  ])('%i kept, %i late: %s', (kept, late, verdict) => {
    expect(keptPromises(promises(kept, late))?.verdict).toBe(verdict);
  });

  test('counted: by P50, by P80, and work added on the way to the late ones', () => {
    expect(
      keptPromises([{ p50: 2, p80: 4, released: 2, grew: false }, ...promises(1, 2, 1)]),
    ).toMatchObject({
      orders: 4,
      byP50: 1,
      byP80: 2,
      lateAndGrown: 1,
      sentence: expect.stringMatching(
        /^2 of 4 were ready by the day of four in five\. .* To 1 of the late ones work was added/,
      ),
    });
  });
});
