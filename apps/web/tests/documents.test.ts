import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { beforeEach, expect, it, vi } from 'vitest';

const web = path.join(import.meta.dirname, '..');
const files = ['features', 'lib', 'components']
  .flatMap((folder) =>
    readdirSync(path.join(web, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      path.join(web, folder, name),
    ),
  )
  .filter((name) => name.endsWith('.ts') && /graphql\(\s*`/.test(readFileSync(name, 'utf8')));

beforeEach(() => vi.resetModules());

// A fragment registers when its file is loaded, so each file has to load what its documents spread.
it.each(files.map((name) => [path.relative(web, name), name]))(
  '%s, loaded by itself, has every fragment that its documents spread, each once',
  async (_, name) => {
    const written = readFileSync(name, 'utf8');
    const documents = Object.values((await import(name)) as Record<string, unknown>)
      .filter((each): each is object => typeof each === 'object' && each !== null)
      .map(String)
      .filter((text) => /^\s*(query|mutation|subscription)\b/.test(text));
    const exported = written.match(/export const \w+ = graphql\(/g) ?? [];
    expect(documents).toHaveLength(exported.length);
    for (const text of documents) {
      const given = [...text.matchAll(/\bfragment (\w+) on\b/g)].map(([, each]) => each);
      expect(new Set(given).size).toBe(given.length);
      for (const [, spread] of text.matchAll(/\.\.\.\s*(?!on\b)(\w+)/g))
        expect(given).toContain(spread);
    }
  },
);

it('a document whose fragment was never loaded says so', async () => {
  const { graphql } = await import('../graphql/document.ts');
  const document = (graphql as (source: string) => unknown)('query Q { node { ...Nowhere } }');
  expect(() => String(document)).toThrow(/fragment Nowhere is not loaded/);
});
