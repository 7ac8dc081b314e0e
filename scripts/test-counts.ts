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

/** Counts single tests in Playwright's JSON report; one that passed at the second try counts as passed, and is in `secondTry`. */
export function playwrightCounts(
  file: string,
  code: number,
): Counts & { readonly secondTry: readonly string[] } {
  const report = readFields(file);
  const stats = report?.['stats'];
  const fields = typeof stats === 'object' && stats !== null ? (stats as Fields) : undefined;
  const counts = settle(
    numberIn(fields, 'expected') + numberIn(fields, 'flaky'),
    numberIn(fields, 'unexpected'),
    numberIn(fields, 'skipped'),
    report === undefined ? 1 : code,
  );
  return { ...counts, secondTry: report === undefined ? [] : flakyIn(report) };
}

const listIn = (fields: Fields, name: string): Fields[] => {
  const value = fields[name];
  return Array.isArray(value) ? (value as Fields[]) : [];
};

/** The titles of tests that passed only when tried again, wherever they stand in the tree of a report. */
function flakyIn(suite: Fields): string[] {
  const here = listIn(suite, 'specs')
    .filter((spec) => listIn(spec, 'tests').some(({ status }) => status === 'flaky'))
    .map(({ file, title }) => `${String(file)}: ${String(title)}`);
  return [...here, ...listIn(suite, 'suites').flatMap(flakyIn)];
}
