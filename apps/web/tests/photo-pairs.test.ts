import { expect, test } from 'vitest';
import { inPairs } from '../components/photo-pairs.ts';

const photos = Object.freeze(['a', 'b', 'c', 'd'].map((id) => Object.freeze({ id })));
const shown = (...pairs: { beforeId: string; afterId: string }[]) =>
  inPairs(photos, pairs).map(({ photo, afters }) => [photo.id, ...afters.map(({ id }) => id)]);

test('without pairs each photo stands alone, in its order', () => {
  expect(shown()).toEqual([['a'], ['b'], ['c'], ['d']]);
});

test('one of after stands beside the one of before, also taken more than once', () => {
  expect(shown({ beforeId: 'a', afterId: 'c' })).toEqual([['a', 'c'], ['b'], ['d']]);
  expect(shown({ beforeId: 'b', afterId: 'c' }, { beforeId: 'b', afterId: 'd' })).toEqual([
    ['a'],
    ['b', 'c', 'd'],
  ]);
});

test('no photo is lost where the other one of its pair is not shown', () => {
  expect(shown({ beforeId: 'gone', afterId: 'c' })).toEqual([['a'], ['b'], ['c'], ['d']]);
});
