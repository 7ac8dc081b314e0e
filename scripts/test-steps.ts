import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { buildWeb, generate } from './build.ts';
import { root } from './paths.ts';
import { freeLoopbackPort } from './ports.ts';
import { runTool, type ToolResult, tsxArguments } from './run-tool.ts';
import { type Counts, playwrightCounts, vitestCounts } from './test-counts.ts';

export interface Outcome extends Counts {
  /** Printed when something failed or was left out. */
  readonly text: string;
}

export interface TestStep {
  readonly name: string;
  readonly title: string;
  /** Steps that must have succeeded first; they are run as well when only this one is named. */
  readonly needs: readonly string[];
  /** Runs beside nothing else: a browser beside a build only measures the build. */
  readonly alone: boolean;
  readonly run: () => Promise<Outcome>;
}

const inCi = () => process.env['CI'] === 'true' || process.env['CI'] === '1';

function asCheck({ code, output }: ToolResult): Outcome {
  return code === 0
    ? { passed: 1, failed: 0, skipped: 0, text: '' }
    : { passed: 0, failed: 1, skipped: 0, text: output.trimEnd() };
}

/** Something the machine lacks: left out with word how to get it, except in CI, where everything must run. */
function missing(text: string): Outcome {
  return inCi()
    ? { passed: 0, failed: 1, skipped: 0, text: `${text}\nWith CI=true this counts as a failure.` }
    : { passed: 0, failed: 0, skipped: 1, text };
}

/** The program of a package, run by this Node: no shell, no PATH. `from` is the folder that depends on it. */
function program(from: string, file: string): string {
  return path.join(root, from, 'node_modules', file);
}

function nodeTool(args: readonly string[]): Promise<Outcome> {
  return runTool(process.execPath, args).then(asCheck);
}

const reportFile = (name: string) =>
  path.join(os.tmpdir(), `fairlead-test-${process.pid}-${name}.json`);

async function vitest(
  name: string,
  projects: readonly string[],
  env: Record<string, string> = {},
): Promise<Outcome> {
  const report = reportFile(name);
  const args = [
    ...[program('tests', 'vitest/vitest.mjs'), 'run'],
    ...projects.flatMap((project) => ['--project', project]),
    ...['--reporter=dot', '--reporter=json', `--outputFile.json=${report}`],
  ];
  const result = await runTool(process.execPath, args, {
    cwd: path.join(root, 'tests'),
    env: { NO_COLOR: '1', FAIRLEAD_TEST_POSTGRES: 'embedded', ...env },
  });
  const counts = vitestCounts(report, result.code);
  fs.rmSync(report, { force: true });
  return { ...counts, text: counts.failed > 0 ? result.output.trimEnd() : '' };
}

async function onDebianPostgres(): Promise<Outcome> {
  if (!fs.existsSync('/usr/lib/postgresql/15/bin/initdb')) {
    return missing(
      'PostgreSQL 15 is not installed. On Debian 12: apt-get install -y postgresql-15 (its own service is not needed).',
    );
  }
  return vitest('api-15', ['api'], { FAIRLEAD_TEST_POSTGRES: 'debian15' });
}

async function journeys(): Promise<Outcome> {
  const chromium = process.env['CHROMIUM_PATH'] || '/usr/bin/chromium';
  if (!fs.existsSync(chromium)) {
    return missing(
      `There is no Chromium at ${chromium}. On Debian or Ubuntu: apt-get install -y chromium. ` +
        'Elsewhere install Chromium and give its program: CHROMIUM_PATH=/path/to/chromium npm test',
    );
  }
  const report = reportFile('journeys');
  const args = [
    program('tests', '@playwright/test/cli.js'),
    'test',
    '--config',
    'journeys/playwright.config.ts',
  ];
  const result = await runTool(process.execPath, [...args, '--reporter=list,json'], {
    cwd: path.join(root, 'tests'),
    env: {
      CHROMIUM_PATH: chromium,
      PLAYWRIGHT_JSON_OUTPUT_NAME: report,
      FAIRLEAD_JOURNEY_PORT: String(await freeLoopbackPort()),
    },
  });
  const { secondTry, ...counts } = playwrightCounts(report, result.code);
  fs.rmSync(report, { force: true });
  const again = secondTry.map((title) => `passed only when tried again: ${title}`).join('\n');
  return { ...counts, text: counts.failed > 0 ? result.output.trimEnd() : again };
}

/** Several outcomes as one. */
function together(outcomes: readonly Outcome[]): Outcome {
  const sum = (field: keyof Counts) =>
    outcomes.reduce((total, outcome) => total + outcome[field], 0);
  return {
    passed: sum('passed'),
    failed: sum('failed'),
    skipped: sum('skipped'),
    text: outcomes
      .map(({ text }) => text)
      .filter(Boolean)
      .join('\n\n'),
  };
}

/** The committed schema is what the code prints: otherwise the web app is typed against something else. */
function schemaDrift(): Promise<Outcome> {
  return nodeTool(tsxArguments('apps/api/src/print-schema.ts', ['--check']));
}

async function typeCheck(): Promise<Outcome> {
  const tsc = program('.', 'typescript/bin/tsc');
  const whole = await runTool(process.execPath, [tsc, '--noEmit', '-p', 'tsconfig.json']);
  const web = await runTool(process.execPath, [tsc, '--noEmit', '-p', 'apps/web/tsconfig.json']);
  return together([asCheck(whole), asCheck(web)]);
}

const done = async (work: () => Promise<unknown>): Promise<Outcome> => {
  try {
    await work();
    return { passed: 1, failed: 0, skipped: 0, text: '' };
  } catch (error) {
    return {
      passed: 0,
      failed: 1,
      skipped: 0,
      text: error instanceof Error ? error.message : String(error),
    };
  }
};

const arrow = ['--config', '.dependency-cruiser.cjs', '--output-type', 'err-long'];
const step = (
  name: string,
  title: string,
  run: () => Promise<Outcome>,
  needs: readonly string[] = ['generate'],
  alone = false,
): TestStep => ({ name, title, needs, alone, run });

/** All steps in the order in which they are begun and reported; two run side by side, the two longest last, so that they end together. */
export const steps: readonly TestStep[] = [
  step('generate', 'generated code', () => done(generate), []),
  step('build', 'web build', () => done(buildWeb)),
  step('format', 'format and imports (Biome)', () =>
    nodeTool([program('.', '@biomejs/biome/bin/biome'), 'check', '--error-on-warnings', '.']),
  ),
  step('lint', 'lint (ESLint, with types)', () =>
    nodeTool([program('.', 'eslint/bin/eslint.js'), '.', '--max-warnings=0']),
  ),
  step('types', 'types: all, web', typeCheck),
  step('arrow', 'import arrow and cycles', () =>
    nodeTool([
      program('.', 'dependency-cruiser/bin/dependency-cruise.mjs'),
      ...arrow,
      ...['apps', 'packages', 'prisma', 'scripts', 'tests'],
    ]),
  ),
  // Mostly waiting, and with minutes of patience: it may stand beside what computes.
  step('faults', 'killed processes, cut networks', () => vitest('faults', ['faults']), [
    'generate',
    'build',
  ]),
  step('schema', 'committed GraphQL schema', schemaDrift),
  step('migrations', 'migrations against the schema', () =>
    nodeTool(tsxArguments('scripts/check-migrations.ts')),
  ),
  step('unit', 'units: packages, web, commands', () =>
    vitest('unit', ['packages', '@fairlead/web', 'commands']),
  ),
  // A run each: both migrate a server of their own, and one process can hold one migration engine.
  step('database', 'what the database keeps', () => vitest('database', ['@fairlead/database'])),
  step('api-unit', 'units of the API', () => vitest('api-unit', ['@fairlead/api'])),
  step('outside', 'outside checks', () => vitest('outside', ['outside'])),
  step('api', 'API over HTTP, embedded PostgreSQL 18', () => vitest('api', ['api'])),
  step('api-15', 'API over HTTP, PostgreSQL 15', onDebianPostgres),
  step('journeys', 'browser journeys', journeys, ['generate', 'build'], true),
];
