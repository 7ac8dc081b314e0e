import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { playwrightCounts, vitestCounts } from '../../scripts/test-counts.ts';

const folder = mkdtempSync(path.join(os.tmpdir(), 'fairlead-counts-'));
afterAll(() => rmSync(folder, { recursive: true }));

function report(content: unknown): string {
  const file = path.join(folder, `${Math.random()}.json`);
  writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
  return file;
}

test('single tests are counted, as each runner reports them', () => {
  const vitest = { numPassedTests: 7, numFailedTests: 2, numPendingTests: 1, numTodoTests: 1 };
  expect(vitestCounts(report(vitest), 1)).toEqual({ passed: 7, failed: 2, skipped: 2 });
  const playwright = { stats: { expected: 3, unexpected: 1, flaky: 0, skipped: 1 } };
  expect(playwrightCounts(report(playwright), 1)).toEqual({
    passed: 3,
    failed: 1,
    skipped: 1,
    secondTry: [],
  });
});

test('a journey that passed only when tried again is named', () => {
  const spec = (title: string, status: string) => ({
    file: 'floor.test.ts',
    title,
    tests: [{ status }],
  });
  const suites = [
    { specs: [spec('At once', 'expected')], suites: [{ specs: [spec('In the end', 'flaky')] }] },
  ];
  const playwright = { stats: { expected: 1, unexpected: 0, flaky: 1, skipped: 0 }, suites };
  expect(playwrightCounts(report(playwright), 0)).toEqual({
    passed: 2,
    failed: 0,
    skipped: 0,
    secondTry: ['floor.test.ts: In the end'],
  });
});

test('a run that ends badly is never counted as green', () => {
  const green = { numPassedTests: 7, numFailedTests: 0 };
  expect(vitestCounts(report(green), 0)).toEqual({ passed: 7, failed: 0, skipped: 0 });
  expect(vitestCounts(report(green), 1).failed).toBe(1);
  expect(vitestCounts(report('{"half'), 0).failed).toBe(1);
  expect(vitestCounts(path.join(folder, 'absent.json'), 0).failed).toBe(1);
  expect(playwrightCounts(path.join(folder, 'absent.json'), 0).failed).toBe(1);
});
