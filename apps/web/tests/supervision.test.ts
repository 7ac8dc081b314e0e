import { expect, test } from 'vitest';
import { supervisionToday } from '../features/work/supervision.ts';

const kept = (day: string, byId: string | null) => JSON.stringify({ day, byId });

test('under whom somebody works is said once a day', () => {
  expect(supervisionToday(kept('2031-05-05', 'a'), '2031-05-05', ['a', 'b'])).toBe('a');
  expect(supervisionToday(kept('2031-05-04', 'a'), '2031-05-05', ['a', 'b'])).toBeUndefined();
  expect(supervisionToday(null, '2031-05-05', ['a'])).toBeUndefined();
});

test('that nobody supervises is an answer too', () => {
  expect(supervisionToday(kept('2031-05-05', null), '2031-05-05', ['a'])).toBeNull();
});

test('whoever may not supervise any more is asked about anew, and so is what cannot be read', () => {
  expect(supervisionToday(kept('2031-05-05', 'gone'), '2031-05-05', ['a'])).toBeUndefined();
  for (const torn of ['', '{', '{}', '[]', '"a"', '{"day":"2031-05-05"}'])
    expect(supervisionToday(torn, '2031-05-05', ['a'])).toBeUndefined();
});
