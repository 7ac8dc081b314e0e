// npm test: every check there is, two at a time, and one line at the end that says how it went.
import { Refusal, say, seconds } from './progress.ts';
import { stopTools } from './run-tool.ts';
import { type Outcome, steps, type TestStep } from './test-steps.ts';

interface Result {
  readonly step: TestStep;
  readonly outcome: Outcome;
  readonly time: number;
}

/** The steps that were named, with what they need; all of them when none was. */
function chosen(names: readonly string[]): TestStep[] {
  const known = steps.map(({ name }) => name);
  for (const name of names) {
    if (!known.includes(name)) {
      throw new Refusal(`There is no test step "${name}". There are: ${known.join(', ')}.`);
    }
  }
  if (names.length === 0) return [...steps];
  const wanted = new Set(names);
  for (const { name, needs } of [...steps].reverse()) {
    if (wanted.has(name)) for (const need of needs) wanted.add(need);
  }
  return steps.filter(({ name }) => wanted.has(name));
}

function report({ step, outcome, time }: Result): void {
  const mark = outcome.failed > 0 ? '✗' : outcome.passed > 0 ? '✓' : '-';
  say(`  ${mark} ${step.title} (${seconds(time)})`);
  if (outcome.text) say(`${outcome.text.replaceAll(/^/gm, '      ')}\n`);
}

const leftOut = (why: string): Outcome => ({ passed: 0, failed: 0, skipped: 1, text: why });

/** Runs the steps in order, two at a time; a step whose need failed is left out and says so. */
async function runAll(list: readonly TestStep[]): Promise<Result[]> {
  const results = new Map<string, Result>();
  const waiting = [...list];
  const running = new Map<string, Promise<void>>();
  const ready = ({ needs }: TestStep) => needs.every((name) => results.has(name));

  const begin = (step: TestStep) => {
    const started = Date.now();
    const broken = step.needs.find((name) => (results.get(name)?.outcome.failed ?? 0) > 0);
    const work = broken
      ? Promise.resolve(leftOut(`left out, since "${broken}" failed`))
      : step.run();
    const settled = work.catch((error: unknown) => ({
      ...{ passed: 0, failed: 1, skipped: 0 },
      text: error instanceof Error ? (error.stack ?? error.message) : String(error),
    }));
    const finished = settled.then((outcome) => {
      const result = { step, outcome, time: Date.now() - started };
      results.set(step.name, result);
      running.delete(step.name);
      report(result);
    });
    running.set(step.name, finished);
  };

  while (waiting.length > 0 || running.size > 0) {
    const next = waiting.find((step) => ready(step) && (!step.alone || running.size === 0));
    const busy = [...running.keys()].some((name) => list.find((step) => step.name === name)?.alone);
    if (next && !busy && running.size < 2) {
      waiting.splice(waiting.indexOf(next), 1);
      begin(next);
    } else {
      await Promise.race(running.values());
    }
  }
  return list.flatMap(({ name }) => results.get(name) ?? []);
}

function table(results: readonly Result[], total: number): void {
  const width = Math.max(...results.map(({ step }) => step.title.length));
  say(`\n  ${'step'.padEnd(width)}  passed  failed  skipped       time`);
  for (const { step, outcome, time } of results) {
    const numbers = [outcome.passed, outcome.failed, outcome.skipped].map((count) => String(count));
    const [passed = '', failed = '', skipped = ''] = numbers;
    say(
      `  ${step.title.padEnd(width)}  ${passed.padStart(6)}  ${failed.padStart(6)}  ${skipped.padStart(7)}  ${seconds(time).padStart(9)}`,
    );
  }
  say(
    `  ${'all, two at a time'.padEnd(width)}  ${' '.repeat(23)}  ${seconds(total).padStart(9)}\n`,
  );
}

for (const [name, code] of [
  ['SIGINT', 130],
  ['SIGTERM', 143],
  ['SIGHUP', 129],
] as const) {
  process.on(name, () => {
    stopTools();
    say(`\nStopped by ${name}.`);
    setTimeout(() => process.exit(code), 1500);
  });
}
if (process.connected) {
  process.once('disconnect', () => {
    stopTools();
    process.exit(1);
  });
  process.channel?.unref();
}

try {
  const list = chosen(process.argv.slice(2));
  const began = Date.now();
  const clock = setInterval(() => say(`  … ${seconds(Date.now() - began)}`), 20_000);
  const results = await runAll(list);
  clearInterval(clock);
  table(results, Date.now() - began);
  const sum = (field: 'passed' | 'failed' | 'skipped') =>
    results.reduce((total, { outcome }) => total + outcome[field], 0);
  const skipped = sum('skipped');
  say(
    `${sum('passed')} passed, ${sum('failed')} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`,
  );
  process.exitCode = sum('failed') > 0 ? 1 : 0;
} catch (error) {
  say(error instanceof Refusal ? error.message : String(error));
  process.exitCode = 1;
}
