import { expect, test } from 'vitest';
import {
  answerOf,
  LEFT_RUNNING,
  rememberedAt,
  suggestionWords,
  whyWords,
} from '../features/work/forgotten-words.ts';

const clock = Object.freeze({
  startedAt: '2031-05-05T12:00:00.000Z',
  endedAt: null,
  why: 'ran_past_hours' as const,
  p99Hours: null,
});
const now = Date.parse('2031-05-06T05:30:00Z');

test('a remembered time has its weekday and the shop’s wall clock, also past midnight and over the change of clocks', () => {
  expect(rememberedAt('2031-05-05T15:00:00.000Z', 'UTC')).toBe('Monday, 15:00');
  expect(rememberedAt('2031-05-05T23:30:00.000Z', 'Europe/Berlin')).toBe('Tuesday, 01:30');
  // Clocks go forward on 30 March 2031 (last Sunday in March, directive 2000/84/EC).
  expect(rememberedAt('2031-03-30T01:00:00.000Z', 'Europe/Berlin')).toBe('Sunday, 03:00');
});

test('why it is asked is said with how long it ran', () => {
  expect(whyWords(clock, 'your', now)).toBe('It has run 17:30 h, on past the end of your hours.');
  const ended = { ...clock, endedAt: '2031-05-06T02:00:00.000Z' };
  expect(whyWords({ ...ended, why: 'ran_very_long' }, 'their', now)).toBe(
    'It ran 14:00 h, and nothing says when their day ends.',
  );
  expect(whyWords({ ...ended, why: 'longer_than_such_jobs', p99Hours: 4.24 }, 'your', now)).toBe(
    'It ran 14:00 h; 99 in 100 pieces of work like it take less than 4.2 h altogether.',
  );
});

test('a device whose clock is behind shows no negative time', () => {
  expect(whyWords(clock, 'your', Date.parse('2031-05-05T11:00:00Z'))).toContain('0:00 h');
});

test('where a time comes from is said; midnight is the end of a day that nobody was to be in', () => {
  const end = { at: '2031-05-05T15:00:00.000Z', kind: 'end_of_hours' as const, what: '' };
  expect(suggestionWords(end, 'your', 'UTC')).toBe('The end of your hours that day');
  expect(suggestionWords({ ...end, at: '2031-05-06T00:00:00.000Z' }, 'your', 'UTC')).toBe(
    'The end of that day',
  );
  expect(suggestionWords({ ...end, kind: 'last_sign', what: 'a photo' }, 'their', 'UTC')).toBe(
    'The last that they are known to have done: a photo',
  );
});

test('an answer is a suggested time, another one, or that the clock is right, always with a reason', () => {
  const suggested = '2031-05-05T15:00:00.000Z';
  expect(answerOf(clock, suggested, null, LEFT_RUNNING, now)).toEqual({
    stoppedAt: suggested,
    reason: LEFT_RUNNING,
  });
  expect(answerOf(clock, 'another', '2031-05-05T16:10:00.000Z', ' Went home ', now)).toEqual({
    stoppedAt: '2031-05-05T16:10:00.000Z',
    reason: 'Went home',
  });
  expect(answerOf(clock, 'right', null, 'Night work', now)).toEqual({
    stoppedAt: null,
    reason: 'Night work',
  });
  expect(answerOf(clock, 'right', null, '  ', now)).toMatchObject({ wrong: 'reason' });
  expect(answerOf(clock, 'another', null, 'Went home', now)).toMatchObject({ wrong: 'time' });
});

test('a time before it began or after it ended is not sent: the shop would refuse it', () => {
  const said = (at: string, over = {}) =>
    answerOf({ ...clock, ...over }, 'another', at, 'Went home', now);
  expect(said('2031-05-05T12:00:00.000Z')).toMatchObject({ wrong: 'time' });
  expect(said('2031-05-06T05:31:00.000Z')).toMatchObject({ wrong: 'time' });
  expect(said('2031-05-06T05:30:00.000Z')).toMatchObject({ stoppedAt: '2031-05-06T05:30:00.000Z' });
  expect(said('2031-05-06T02:01:00.000Z', { endedAt: '2031-05-06T02:00:00.000Z' })).toMatchObject({
    wrong: 'time',
  });
});
