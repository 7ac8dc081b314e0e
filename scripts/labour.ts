// npm run --silent labour: the labour model without the server, so that an auditor can refit. Answers go to standard
// output as JSON, everything else to standard error. Exit codes: 0 answered, 1 refused because of what was given,
// 2 the command or its surroundings are wrong.
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import {
  backtest,
  doneItem,
  fitHours,
  HoursPredictor,
  packageOf,
  parseItems,
  readModel,
  readRegressRequest,
  regress,
} from '../packages/labour/src/index.ts';
import { answer, argumentsOf, fromHere, runOneOf, tell, UsageError } from './command-line.ts';
import { jsonOf, readText, writeWhole } from './files.ts';
import { historyOf, refusedWords, rowsOf } from './labour-files.ts';
import { Refusal } from './progress.ts';

const usage = `npm run --silent labour -- COMMAND …

  regress REQUEST.json           fits any linear mixed model: {"rows": "data.csv" or [{…}], "response": "y", "fixed": ["days"],
                                 "groups": [{"name": "subject", "columns": ["Subject"], "slopes": ["Days"], "correlated": true}],
                                 "method": "reml" or "ml"}; a path is relative to the request
  fit HISTORY.csv --out MODEL    fits the model of hours to past jobs, writes it to a file, answers a summary
      --skip-bad                 fits the good rows and writes the others to a file (without it: all or nothing)
      --refused OUT.csv          where those go; HISTORY.refused.csv unless said
  estimate MODEL ITEMS.csv       hours of each item, and of all together
      --seed N                   of the simulation; 1 unless said
  backtest HISTORY.csv           fits what was known at each month's start, predicts the month, and compares
  --help                         this text`;

/** Says where a long computation is, from the second second on. */
function patience(): (words: string) => void {
  const started = performance.now();
  let said = started;
  return (words) => {
    if (performance.now() - said < 1000) return;
    said = performance.now();
    tell(`  … ${words}, ${Math.round((said - started) / 1000)} s`);
  };
}

function regressCommand(args: readonly string[]): void {
  const { files } = argumentsOf(args, ['REQUEST.json']);
  const started = performance.now();
  const request = jsonOf(files[0]!);
  const rows = rowsOf(request, path.dirname(files[0]!));
  const say = patience();
  const fitted = regress(readRegressRequest(request, rows), (step) => say(`step ${step}`));
  answer({ ...fitted, ms: Math.round(performance.now() - started) });
}

function fitCommand(args: readonly string[]): void {
  const { files, values, flags } = argumentsOf(
    args,
    ['HISTORY.csv'],
    ['--out', '--refused'],
    ['--skip-bad'],
  );
  const out = values.get('--out');
  if (out === undefined) throw new UsageError('fit needs --out MODEL: where to write the model.');
  if (values.has('--refused') && !flags.has('--skip-bad')) {
    throw new UsageError('--refused only goes with --skip-bad.');
  }
  const refusedTo = values.get('--refused');
  const { rows, refused } = historyOf(files[0]!, {
    skipBad: flags.has('--skip-bad'),
    refusedTo: refusedTo === undefined ? undefined : fromHere(refusedTo),
  });
  const started = performance.now();
  const say = patience();
  const model = fitHours(rows.map(doneItem), {
    progress: (round, step) => say(`round ${round}, step ${step}`),
  });
  writeWhole(fromHere(out), `${JSON.stringify(model)}\n`);
  const sigma = Math.exp(model.lnSigma);
  answer({
    version: model.version,
    ...model.summary,
    refused,
    residualSd: sigma,
    stretch: model.stretch,
    spreads: Object.fromEntries(
      model.factors.map(({ factor, relative }) => [factor, relative * sigma]),
    ),
    ms: Math.round(performance.now() - started),
  });
}

function estimateCommand(args: readonly string[]): void {
  const { files, values } = argumentsOf(args, ['MODEL', 'ITEMS.csv'], ['--seed']);
  const seed = Number(values.get('--seed') ?? 1);
  const predictor = new HoursPredictor(readModel(jsonOf(files[0]!)));
  const { items, refused } = parseItems(readText(files[1]!));
  if (refused.length > 0) throw new Refusal(refusedWords(files[1]!, refused));
  const estimates = items.map((item) => predictor.estimate(item));
  const { p50, mean, p80, p90, sumOfP80 } = packageOf(estimates, { seed });
  answer({
    items: estimates.map((one, index) => ({
      id: items[index]!.id,
      p10: one.p10,
      p50: one.p50,
      mean: one.mean,
      p80: one.p80,
      p90: one.p90,
      jobs: one.jobs,
      because: one.steps,
    })),
    package: { p50, mean, p80, p90, sumOfP80 },
    version: estimates[0]?.modelVersion,
  });
}

function backtestCommand(args: readonly string[]): void {
  const { files } = argumentsOf(args, ['HISTORY.csv']);
  const { rows } = historyOf(files[0]!, { skipBad: false, refusedTo: undefined });
  const started = performance.now();
  const say = patience();
  const result = backtest(
    rows.map((row) => ({ ...doneItem(row), completedOn: row.completedOn })),
    { progress: (month) => say(`predicting ${month}`) },
  );
  answer({ ...result, ms: Math.round(performance.now() - started) });
}

const commands: Readonly<Record<string, (args: readonly string[]) => void>> = {
  regress: regressCommand,
  fit: fitCommand,
  estimate: estimateCommand,
  backtest: backtestCommand,
};

/** @returns the exit code */
export const labour = (args: readonly string[]): number => runOneOf(commands, usage, args);

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = labour(process.argv.slice(2));
