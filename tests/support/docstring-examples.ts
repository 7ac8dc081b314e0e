import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runInThisContext } from 'node:vm';

/** One `@example call // → value` of a docstring. */
export interface DocstringExample {
  readonly file: string;
  readonly call: string;
  readonly value: string;
}

/** Reads every `@example` of a folder's TypeScript files, in the form `@example call // → value`. */
export function docstringExamples(folder: string): DocstringExample[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.ts'))
    .flatMap((file) => {
      const text = readFileSync(join(folder, file), 'utf8');
      return [...text.matchAll(/^ \* @example (.+?) \/\/ → (.+)$/gm)].map(
        ([, call = '', value = '']) => ({ file, call, value }),
      );
    });
}

/** Runs a text as an expression in which the given names are known: what a package exports. */
export function evaluate(expression: string, names: Readonly<Record<string, unknown>>): unknown {
  const run: unknown = runInThisContext(
    `(function (${Object.keys(names).join(', ')}) { 'use strict'; return (${expression}); })`,
  );
  return typeof run === 'function' ? run(...Object.values(names)) : undefined;
}
