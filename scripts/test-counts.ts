import fs from 'node:fs';

export interface Counts {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

type Fields = Record<string, unknown>;

function readFields(file: string): Fields | undefined {
  try {
    const found: unknown = JSON.parse(fs.readFileSync(file, 'utf8'));
    return typeof found === 'object' && found !== null ? (found as Fields) : undefined;
  } catch {
    return undefined;
  }
}

const numberIn = (fields: Fields | undefined, name: string): number => {
  const value = fields?.[name];
  return typeof value === 'number' ? value : 0;
};

/** A run that ended badly without naming a failed test (a file that does not load, no report) counts as one failure. */
function settle(passed: number, failed: number, skipped: number, code: number): Counts {
  return { passed, failed: code !== 0 && failed === 0 ? 1 : failed, skipped };
}

/** Counts single tests in vitest's JSON report. */
export function vitestCounts(file: string, code: number): Counts {
  const report = readFields(file);
  return settle(
    numberIn(report, 'numPassedTests'),
    numberIn(report, 'numFailedTests'),
    numberIn(report, 'numPendingTests') + numberIn(report, 'numTodoTests'),
    report === undefined ? 1 : code,
  );
}

/** Counts single tests in Playwright's JSON report; one that passed only at the second try counts as failed. */
export function playwrightCounts(file: string, code: number): Counts {
  const report = readFields(file);
  const stats = report?.['stats'];
  const fields = typeof stats === 'object' && stats !== null ? (stats as Fields) : undefined;
  return settle(
    numberIn(fields, 'expected'),
    numberIn(fields, 'unexpected') + numberIn(fields, 'flaky'),
    numberIn(fields, 'skipped'),
    report === undefined ? 1 : code,
  );
}
