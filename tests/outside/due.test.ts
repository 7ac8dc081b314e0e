import {
  type DueItem,
  type DueState,
  parseHours,
  readDay,
  readDueRequest,
  standOf,
  writeDay,
} from '@fairlead/airworthiness';
import { describe, expect, it } from 'vitest';

/**
 * Worked cases of the rules, read in the regulation's text (eCFR, issues of August and September 2026) unless a case says
 * otherwise. That calendar months end on the month's last day is as others read the rules.
 */

const at = (date: string, tis: string) => ({ date: readDay(date), tis: parseHours(tis) });
const soon = { hours: parseHours('10'), days: 30 };
const item = (rule: DueItem['rule'], over: Partial<DueItem>): DueItem => ({
  ...{ id: 'x', rule, whichever: 'first', enRoute: false },
  ...over,
});
const stand = (what: DueItem, where: ReturnType<typeof at>) => {
  const { due, limitTis, state, because } = standOf(what, where, soon);
  return {
    ...(due.date !== undefined && { date: writeDay(due.date) }),
    ...(due.tis !== undefined && { tis: due.tis / 100 }),
    ...(limitTis !== undefined && { limitTis: limitTis / 100 }),
    state,
    because,
  };
};

describe('14 CFR 91.409(b): within the preceding 100 hours', () => {
  it.each<[string, { tis: string; dueAtTis?: string }, string, boolean, number, DueState]>([
    // done, when that had been due, now, on the way to the inspection, next due, state
    ['done at 1234.5', { tis: '1234.5' }, '1300', false, 1334.5, 'ok'],
    ['at the very hour', { tis: '1234.5' }, '1334.5', false, 1334.5, 'due'],
    [
      'done early at 1320.0 it runs from then',
      { tis: '1320', dueAtTis: '1334.5' },
      '1325',
      false,
      1420,
      'ok',
    ],
    ['on the way, exactly 10 over', { tis: '1234.5' }, '1344.5', true, 1334.5, 'within_allowance'],
    ['past 10 over there is no allowance', { tis: '1234.5' }, '1344.6', true, 1334.5, 'overdue'],
    ['a local flight has none', { tis: '1234.5' }, '1336', false, 1334.5, 'overdue'],
    [
      'the excess counts against the next 100',
      { tis: '1338.7', dueAtTis: '1334.5' },
      '1340',
      false,
      1434.5,
      'ok',
    ],
    ['all ten of them', { tis: '1344.5', dueAtTis: '1334.5' }, '1344.5', false, 1434.5, 'ok'],
  ])('%s', (_name, { tis, dueAtTis }, now, enRoute, due, state) => {
    const last = {
      tis: parseHours(tis),
      ...(dueAtTis !== undefined && { dueAtTis: parseHours(dueAtTis) }),
    };
    expect(stand(item('hundred_hour', { last, enRoute }), at('2026-03-02', now))).toEqual({
      tis: due,
      limitTis: due + 10,
      state,
      because: expect.stringContaining('14 CFR 91.409(b)'),
    });
  });
});

describe('14 CFR 91.409(a): within the preceding 12 calendar months', () => {
  it.each([
    ['2025-03-14', '2026-03-31'],
    ['2025-03-01', '2026-03-31'],
    ['2025-03-31', '2026-03-31'],
    ['2024-02-29', '2025-02-28'],
    ['2023-02-10', '2024-02-29'],
  ])('approved %s, good through %s', (date, through) => {
    const annual = item('annual', { last: { date: readDay(date) } });
    const answer = { date: through, because: expect.stringContaining('14 CFR 91.409(a)') };
    expect(stand(annual, at(through, '1300'))).toEqual({ ...answer, state: 'due' });
    const dayAfter = writeDay(readDay(through) + 1);
    expect(stand(annual, at(dayAfter, '1300'))).toEqual({ ...answer, state: 'overdue' });
  });

  it('is not put off by a 100-hour inspection that is no annual (last sentence of (a))', () => {
    const now = at('2026-03-02', '1300');
    const annual = item('annual', { last: { date: readDay('2025-03-14') } });
    const hundred = item('hundred_hour', {
      last: { date: readDay('2025-09-10'), tis: parseHours('1234.5') },
    });
    expect(stand(hundred, now).state).toBe('ok');
    expect(stand(annual, now)).toMatchObject({ date: '2026-03-31', state: 'due_soon' });
  });
});

describe('by the calendar', () => {
  const after = (
    date: string,
    every: DueItem['every'],
    rule: DueItem['rule'] = 'calendar_months',
  ) => stand(item(rule, { every, last: { date: readDay(date) } }), at('2026-01-31', '1300')).date;

  it('14 CFR 91.411 and 91.413: altimeter and transponder, 24 calendar months', () => {
    expect(after('2024-11-05', { calendarMonths: 24 })).toBe('2026-11-30');
  });
  it('14 CFR 91.207(d): emergency locator, 12 calendar months', () => {
    expect(after('2025-08-05', { calendarMonths: 12 })).toBe('2026-08-31');
  });
  it('14 CFR 91.207(f)(10): removed, at most 90 days without it', () => {
    expect(after('2026-01-10', { days: 90 }, 'recurring')).toBe('2026-04-10');
  });
});

describe('14 CFR part 39: directives that recur', () => {
  const every = { hours: parseHours('100') };
  const last = { tis: parseHours('1234.5'), date: readDay('2025-03-14') };
  it('gives no 10 hours past what the directive says', () => {
    const late = stand(
      item('recurring', { every, last, enRoute: true }),
      at('2026-03-02', '1334.6'),
    );
    expect(late).toEqual({
      tis: 1334.5,
      state: 'overdue',
      because: expect.stringContaining('14 CFR part 39'),
    });
  });
  it('plain months are counted to the day, unless it says calendar months', () => {
    const months = (interval: DueItem['every']) =>
      stand(item('recurring', { every: interval, last }), at('2026-03-02', '1300')).date;
    expect(months({ months: 12 })).toBe('2026-03-14');
    expect(months({ calendarMonths: 12 })).toBe('2026-03-31');
  });
  it('whichever comes first', () => {
    const both = item('recurring', { every: { ...every, months: 12 }, last });
    expect(stand(both, at('2026-03-15', '1300'))).toMatchObject({
      tis: 1334.5,
      date: '2026-03-14',
      state: 'overdue',
    });
  });
});

it('reads a request as people write it', () => {
  const { at: now, items } = readDueRequest({
    at: { date: '2026-03-02', tis: 1300.5 },
    items: [{ id: 'a', rule: 'hundred_hour', last: { tis: '1234.5' } }],
  });
  expect(standOf(items[0]!, now, soon).remaining).toEqual({ hours: 3400 });
});
