import fs from 'node:fs';
import { Refusal } from './progress.ts';

const why: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'this account may not use it',
  EEXIST: 'it exists already, and nothing of yours is overwritten',
  ENOSPC: 'the disk is full',
};
/** Why a file could not be used, in words. */
export const whyNot = (error: unknown): string => {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return why[code] ?? code;
};

/** @throws Refusal that says why the file cannot be read */
export function readText(file: string): string {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch (error) {
    throw new Refusal(`Cannot read ${file}: ${whyNot(error)}.`);
  }
}

/** @throws Refusal for what is not JSON */
export function jsonOf(file: string): unknown {
  const text = readText(file);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${file} is not JSON: ${(error as Error).message}`);
  }
}

/** Writes all of a file or nothing: beside it first, then in its place. */
export function writeWhole(file: string, text: string, overwrite = true): void {
  try {
    if (!overwrite) {
      fs.writeFileSync(file, text, { flag: 'wx' });
      return;
    }
    const beside = `${file}.${process.pid}.part`;
    fs.writeFileSync(beside, text);
    fs.renameSync(beside, file);
  } catch (error) {
    throw new Refusal(`Cannot write ${file}: ${whyNot(error)}.`);
  }
}
