import { describe, expect, it } from 'vitest';
import { runOf } from '../features/programme/run-of.ts';

const line = {
  part: null,
  lastOn: '2026-01-01',
  dueOn: '2026-01-11',
  remainingDays: 4,
  lastAtHundredths: null,
  dueAtHundredths: null,
  remainingHundredths: null,
};
const hours = { lastAtHundredths: 100_00, dueAtHundredths: 200_00, remainingHundredths: 20_00 };

describe('the share of an interval that has run', () => {
  it('is 0 just done, 1 when due, more when past it', () => {
    expect(runOf(line)).toBeCloseTo(0.6);
    expect(runOf({ ...line, remainingDays: 10 })).toBe(0);
    expect(runOf({ ...line, remainingDays: 0 })).toBe(1);
    expect(runOf({ ...line, remainingDays: -5 })).toBe(1.5);
  });
  it('is that of whichever is further', () => {
    expect(runOf({ ...line, ...hours })).toBeCloseTo(0.8);
    expect(runOf({ ...line, ...hours, remainingDays: 1 })).toBeCloseTo(0.9);
  });
  it('leaves the hours of a part alone, which are not the aircraft’s', () => {
    expect(runOf({ ...line, ...hours, part: 'Engine, serial 7' })).toBeCloseTo(0.6);
    expect(runOf({ ...line, ...hours, part: 'Engine, serial 7', lastOn: null })).toBeNull();
  });
  it('is unknown where nobody said when it was done, or nothing lies between', () => {
    expect(runOf({ ...line, lastOn: null })).toBeNull();
    expect(runOf({ ...line, dueOn: line.lastOn })).toBeNull();
  });
});
