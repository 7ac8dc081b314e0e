import { describe, expect, it } from 'vitest';
import { inHours, inTimes } from '../src/hours.ts';
import {
  hours,
  hoursQuantile,
  parseHistory,
  Sample,
  studentQuantile,
  sumMoments,
  sumOfItems,
} from '../src/index.ts';

describe('the examples in the docstrings', () => {
  const certain = { predictive: { location: 0, scale: 0, df: Infinity }, mean: 1, p80: 1 };

  it('hold', () => {
    expect(hours(2.5)).toBe(2.5);
    expect(studentQuantile(0.975, 10)).toBeCloseTo(2.2281388519862744, 12);
    expect(hoursQuantile({ location: 0, scale: 1, df: Infinity }, 0.5)).toBe(1);
    expect(Sample.of([1.2, 1.5, 2, 3.7, 5.1]).crps(2.4)).toBeCloseTo(0.5, 14);
    expect(sumOfItems([certain, certain], { seed: 1 }).p90).toBe(2);
    expect(sumMoments([certain]).mean).toBe(1);
    expect(parseHistory('', { today: '2025-01-31' }).refused[0]?.problem).toBe('is an empty file');
  });

  it('and figures are written with their unit', () => {
    expect([inHours(2), inTimes(1.414)]).toEqual(['2.00 h', '×1.41']);
  });
});
