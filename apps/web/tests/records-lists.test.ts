import { expect, test } from 'vitest';
import { byRemedy } from '../features/records/by-remedy.ts';
import { figuresOf, saidAlike } from '../features/records/said-alike.ts';

const done = (chapter: number) => `Done to the manual, chapter ${chapter}; nothing found.`;

test('what most items say alike is read once; what differs by a word is not alike', () => {
  const said = [
    done(24),
    done(28),
    'Crack found, 14 mm.',
    done(71),
    'Done to the manual, chapter 24; worn.',
  ];
  const alike = saidAlike(said);
  expect(alike).toEqual({ words: 'Done to the manual, chapter …; nothing found.', items: 3 });
  expect(said.map((text) => figuresOf(text, alike))).toEqual([['24'], ['28'], null, ['71'], null]);
  expect(saidAlike(said.slice(0, 3))).toBeNull();
  expect(saidAlike([])).toBeNull();
  expect(figuresOf(done(24), null)).toBeNull();
  // No text is lost: what is alike and its figures make the text again.
  for (const text of said) {
    const figures = figuresOf(text, alike);
    if (alike === null || figures === null) continue;
    expect(figures.reduce((words, figure) => words.replace('…', figure), alike.words)).toBe(text);
  }
});

test('things missing alike stand together, in order, none left out', () => {
  const thing = (what: string, remedy = 'Look at it.') => ({
    paragraph: 'shop rule',
    what,
    remedy,
  });
  const missing = [
    { paragraph: '14 CFR 43.11(a)(4)', what: 'the statement', remedy: 'Choose.' },
    thing('an end to the item still open: 19 Inspect clutch'),
    thing('initials on the item: 4 Plugs: gap and test'),
    thing('an end to the item still open: 26 Inspect pedals'),
    thing('initials on the item: 5 Harness', 'Another remedy.'),
  ];
  const groups = byRemedy(missing);
  expect(groups.map(({ what, items }) => [what, ...items])).toEqual([
    ['the statement'],
    ['an end to the item still open', '19 Inspect clutch', '26 Inspect pedals'],
    ['initials on the item', '4 Plugs: gap and test'],
    ['initials on the item', '5 Harness'],
  ]);
  expect(groups.reduce((sum, { items }) => sum + Math.max(1, items.length), 0)).toBe(
    missing.length,
  );
  expect(byRemedy([])).toEqual([]);
});
