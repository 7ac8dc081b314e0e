import path from 'node:path';
import { Refusal } from './progress.ts';

export const usage = `npm run --silent import-history -- FILE.csv [--skip-bad] [--refused OUT.csv] [--shop NAME]

  FILE.csv           past jobs, UTF-8, with a header row
  --skip-bad         import the good rows and write the others to a file (without it: all or nothing)
  --refused OUT.csv  where those go; FILE.refused.csv unless said
  --shop NAME        which shop, where the database has several
  --help             this text`;

export interface ImportOptions {
  readonly file: string;
  readonly skipBad: boolean;
  readonly refused: string;
  readonly shop: string | undefined;
}

/**
 * Reads the arguments of import-history; files are looked up from where the command was called.
 *
 * @throws Refusal for anything unknown, doubled or missing, by name
 */
export function readImportOptions(args: readonly string[], calledFrom: string): ImportOptions {
  const files: string[] = [];
  const values = new Map<string, string>();
  let skipBad = false;
  for (let index = 0; index < args.length; index += 1) {
    const given = args[index] ?? '';
    const [name = '', inline] = given.startsWith('--') ? given.split(/=(.*)/s) : [given];
    if (given === '--skip-bad') skipBad = true;
    else if (name === '--refused' || name === '--shop') {
      const value = inline ?? args[(index += 1)];
      if (!value || value.startsWith('--'))
        throw new Refusal(`${name} needs a value after it.\n\n${usage}`);
      if (values.has(name)) throw new Refusal(`${name} was given twice.`);
      values.set(name, value);
    } else if (given.startsWith('-') && given !== '-')
      throw new Refusal(`"${given}" is not an option.\n\n${usage}`);
    else files.push(given);
  }
  const [file] = files;
  if (file === undefined || file === '' || files.length > 1)
    throw new Refusal(
      `${files.length === 0 ? 'Which file?' : `One file at a time; got ${files.length}.`}\n\n${usage}`,
    );
  const refusedGiven = values.get('--refused');
  if (refusedGiven !== undefined && !skipBad)
    throw new Refusal('--refused only goes with --skip-bad; nothing was imported.');
  const full = path.resolve(calledFrom, file);
  const beside = `${full.replace(/\.csv$/i, '')}.refused.csv`;
  return {
    file: full,
    skipBad,
    refused: refusedGiven === undefined ? beside : path.resolve(calledFrom, refusedGiven),
    shop: values.get('--shop'),
  };
}
