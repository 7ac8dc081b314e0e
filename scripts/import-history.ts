// npm run import-history: a file of past jobs into the shop, all of it or none. Exit codes: 0 done,
// 1 nothing was imported because of what is in the file, 2 the command or its surroundings are wrong.
import fs from 'node:fs';
import path from 'node:path';
import type { ImportedHistory } from '../apps/api/src/hindsight/import-history.ts';
import { generate } from './build.ts';
import { provisionDatabase, startOwnDatabase } from './database.ts';
import { type ImportOptions, readImportOptions, usage } from './import-history-options.ts';
import { Refusal, seconds } from './progress.ts';

const tell = (line: string): void => void process.stderr.write(`${line}\n`);
const answer = (line: string): void => void process.stdout.write(`${line}\n`);

/** Says that it still runs from the first second on; short work stays silent. */
async function patiently<T>(name: string, work: () => Promise<T>): Promise<T> {
  const started = Date.now();
  const clock = setInterval(() => tell(`  … ${name}: ${seconds(Date.now() - started)}`), 1000);
  try {
    return await work();
  } finally {
    clearInterval(clock);
  }
}

function readFile(file: string): Uint8Array {
  try {
    return fs.readFileSync(file);
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

/** The embedded server unless DATABASE_URL names another; what was started here is stopped again. */
async function openDatabase(): Promise<{ appUrl: string; close: () => Promise<void> }> {
  const given = process.env['DATABASE_URL'];
  if (given) return { appUrl: given, close: () => Promise.resolve() };
  const own = await patiently('starting the database', () => startOwnDatabase());
  if (!own.reused) await patiently('tables and rules', () => provisionDatabase(own.urls));
  return { appUrl: own.urls.appUrl, close: () => own.stop() };
}

async function keepRefused(file: string, text: string): Promise<void> {
  try {
    await fs.promises.writeFile(file, text, { flag: 'wx' });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const why = code === 'EEXIST' ? 'it exists already, and nothing of yours is overwritten' : code;
    throw new Refusal(
      `Cannot write the refused rows to ${file}: ${why}. Name another file with --refused; nothing was imported.`,
    );
  }
}

/** A value as it can be printed anywhere: no control character reaches the terminal. */
const shown = (value: string): string =>
  JSON.stringify(value.length > 80 ? `${value.slice(0, 80)}…` : value);

function printRefusals({ read }: ImportedHistory): void {
  for (const { line, column, value, problem, remedy } of read.refused)
    tell(
      `${read.name}, line ${line}${column === '' ? '' : `, ${column}`}: ${value === '' ? column || 'this' : shown(value)} ${problem}. ${remedy}`,
    );
}

const rows = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`;

function report(done: ImportedHistory, options: ImportOptions, shop: string): number {
  printRefusals(done);
  const { read, added, already } = done;
  const bad = read.refusedRows.length;
  if (!done.taken) {
    const what =
      bad === 0
        ? 'The file cannot be used as it is'
        : `${rows(bad)} of ${bad + read.rows.length} refused`;
    answer(
      `${what}: nothing was imported.${bad > 0 && !options.skipBad ? ' Mend the file, or take the rest with --skip-bad.' : ''}`,
    );
    return 1;
  }
  if (bad > 0)
    answer(
      `${rows(bad)} refused and written to ${options.refused}; mend them there and import that file.`,
    );
  if (read.rows.length === 0) {
    answer(`No row to import in ${read.name}: nothing was imported.`);
    return 1;
  }
  const there = already > 0 ? `, ${already} ${already === 1 ? 'was' : 'were'} there already` : '';
  answer(`${shop}: ${rows(added)} added${there}.`);
  return 0;
}

/** What went wrong: a sentence where it is a refusal or the database's own, everything else with its place in the program. */
function sentenceOf(error: unknown): string {
  if (!(error instanceof Error))
    return `Importing failed, and nothing was imported: ${String(error)}`;
  if (['Refusal', 'Refused'].includes(error.name)) return error.message;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (/^E[A-Z]+$|^(28|3D|08|57)/.test(code))
    return `The database at DATABASE_URL cannot be used (${error.message || code}). Nothing was imported.`;
  return `Importing failed, and nothing was imported:\n${error.stack ?? error.message}`;
}

async function main(): Promise<number> {
  const args = process.argv.slice(2);
  if (args.includes('--help')) {
    answer(usage);
    return 0;
  }
  const options = readImportOptions(args, process.env['INIT_CWD'] ?? process.cwd());
  const bytes = readFile(options.file);
  await patiently('generated code', generate);
  // Only now: on a fresh clone the database client does not exist before it is generated.
  const { createClient, inShop } = await import('../packages/database/src/index.ts');
  const { civilDay } = await import('../apps/api/src/civil-day.ts');
  const { findShop } = await import('../apps/api/src/hindsight/find-shop.ts');
  const { importHistory } = await import('../apps/api/src/hindsight/import-history.ts');
  const { newId } = await import('../apps/api/src/new-id.ts');
  const { writeRefused } = await import('../packages/labour/src/index.ts');

  const { appUrl, close } = await openDatabase();
  const client = createClient({ url: appUrl, poolSize: 2 });
  try {
    const shop = await findShop(client, appUrl, options.shop);
    const done = await patiently('importing', () =>
      importHistory(
        (work) =>
          inShop(client, { shopId: shop.id, personId: null, requestId: newId() }, work, {
            timeoutMs: 120_000,
          }),
        {
          file: { name: path.basename(options.file), bytes },
          today: civilDay(new Date(), shop.timeZone).toISOString().slice(0, 10),
          skipBad: options.skipBad,
          keepRefused: (read) => keepRefused(options.refused, writeRefused(read)),
        },
      ),
    );
    return report(done, options, shop.name);
  } finally {
    await client.$disconnect();
    await close();
  }
}

try {
  process.exitCode = await main();
} catch (error) {
  tell(sentenceOf(error));
  process.exitCode = error instanceof Error && error.name === 'Refused' ? 1 : 2;
}
