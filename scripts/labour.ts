// npm run --silent labour: the labour model without the server, so that an auditor can refit. Answers go to standard
// output as JSON, everything else to standard error. Exit codes: 0 answered, 1 refused because of what was given,
// 2 the command or its surroundings are wrong.
import fs from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import {
  readRegressRequest,
  type RegressRow,
  readTable,
  regress,
} from '../packages/labour/src/index.ts';
import { Refusal } from './progress.ts';

const usage = `npm run --silent labour -- regress REQUEST.json

  regress REQUEST.json   fits any linear mixed model: {"rows": "data.csv" or [{…}], "response": "y", "fixed": ["days"],
                         "groups": [{"name": "subject", "columns": ["Subject"], "slopes": ["Days"], "correlated": true}],
                         "method": "reml" or "ml"}; a path is relative to the request
  --help                 this text`;

const tell = (line: string): void => void process.stderr.write(`${line}\n`);

function read(file: string): string {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const why: Record<string, string> = {
      ENOENT: 'there is no such file',
      EISDIR: 'it is a folder',
      EACCES: 'this account may not read it',
    };
    throw new Refusal(`Cannot read ${file}: ${why[code] ?? code}.`);
  }
}

function parsed(file: string): unknown {
  const text = read(file);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${file} is not JSON: ${(error as Error).message}`);
  }
}

/** The rows of a request: in it, or in a file beside it. */
function rowsOf(request: unknown, folder: string): readonly RegressRow[] {
  const rows = (request as { rows?: unknown } | null)?.rows;
  if (typeof rows === 'string') return readTable(read(path.resolve(folder, rows)));
  const areRows =
    Array.isArray(rows) &&
    rows.every((row) => typeof row === 'object' && row !== null && !Array.isArray(row));
  if (areRows) return rows as RegressRow[];
  throw new Refusal('"rows" must be the path of a CSV file or a list of objects.');
}

function regressFile(file: string): void {
  const started = performance.now();
  const request = parsed(file);
  const rows = rowsOf(request, path.dirname(file));
  let said = started;
  const answer = regress(readRegressRequest(request, rows), (iteration) => {
    if (performance.now() - said < 1000) return;
    said = performance.now();
    tell(`  … step ${iteration}, ${Math.round((said - started) / 1000)} s`);
  });
  const ms = Math.round(performance.now() - started);
  process.stdout.write(`${JSON.stringify({ ...answer, ms })}\n`);
}

/** @returns the exit code */
export function labour(args: readonly string[]): number {
  const [name, file, ...more] = args;
  if (args.includes('--help')) {
    process.stdout.write(`${usage}\n`);
    return 0;
  }
  if (name !== 'regress') {
    tell(
      `${name === undefined ? 'What is to be done?' : `"${name}" is not one of its commands.`}\n\n${usage}`,
    );
    return 2;
  }
  if (file === undefined || more.length > 0) {
    tell(`${name} needs one file; got ${args.length - 1}.\n\n${usage}`);
    return 2;
  }
  try {
    regressFile(path.resolve(process.env['INIT_CWD'] ?? process.cwd(), file));
    return 0;
  } catch (error) {
    if (!(error instanceof Refusal) && !(error instanceof RangeError)) throw error;
    tell(error.message);
    return 1;
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.exitCode = labour(process.argv.slice(2));
