import { fuelLeak } from '@fairlead/airworthiness';
import { expect, test } from 'vitest';

// Source: FAA-H-8083-31, as quoted by others: across in 30 minutes, under ¾ inch a stain, ¾ to 1½ a seep, 1½ to 4 a heavy
// seep. Wider than 4 inches has no name there: taken as a running leak, ours.
test.each([
  [0.1, 'stain'],
  [0.74, 'stain'],
  [0.75, 'seep'],
  [1.5, 'seep'],
  [1.51, 'heavy_seep'],
  [4, 'heavy_seep'],
  [4.01, 'running_leak'],
] as const)('%f inches across is a %s', (inches, name) => {
  expect(fuelLeak(inches)).toBe(name);
});

test('nothing has no name', () => {
  expect(() => fuelLeak(0)).toThrow(/0 inches across/);
});
