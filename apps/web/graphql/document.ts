import type { graphql as typed } from './generated/gql.ts';

/** Fragments of their own, by name: they register when their file is loaded. */
const fragments = new Map<string, string>();

function withFragments(source: string): string {
  const whole = [source];
  const had = new Set(named(source));
  for (const part of whole) {
    for (const [, name = ''] of part.matchAll(/\.\.\.\s*(?!on\b)(\w+)/g)) {
      if (had.has(name)) continue;
      const fragment = fragments.get(name);
      if (fragment === undefined) {
        throw new TypeError(
          `The fragment ${name} is not loaded: import its file beside the document`,
        );
      }
      for (const each of named(fragment)) had.add(each);
      whole.push(fragment);
    }
  }
  return whole.join('\n');
}

const named = (source: string): string[] =>
  [...source.matchAll(/\bfragment\s+(\w+)\s+on\b/g)].map(([, name = '']) => name);

/**
 * A document where it is written, typed by what code generation found there.
 *
 * Of the generated files only types are used. Their table holds every document of the shop and would
 * come to each page whole: 13 kB to the bench, which asks for a tenth of it.
 */
export const graphql = ((source: string) => {
  if (/^\s*fragment\b/.test(source)) {
    for (const name of named(source)) fragments.set(name, source);
  }
  let whole: string | undefined;
  return {
    toString() {
      whole ??= withFragments(source);
      return whole;
    },
  };
}) as unknown as typeof typed;
