import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DueItem, hundredths, parseHours, readDay, standOf, writeDay } from '../src/index.ts';

const soon = { hours: parseHours('10'), days: 30 };
const at = { date: readDay('2026-03-02'), tis: parseHours('1300'), cycles: 4000 };
const item = (over: Partial<DueItem> & Pick<DueItem, 'rule'>): DueItem => ({
  ...{ id: 'x', whichever: 'first', enRoute: false },
  ...over,
});
const last = { date: readDay('2025-09-01'), tis: parseHours('1250'), cycles: 3900 };

describe('what falls due', () => {
  it('goes by whichever comes first, or last', () => {
    const every = { hours: parseHours('50'), months: 12, cycles: 500 };
    const first = standOf(item({ rule: 'recurring', every, last }), at, soon);
    expect(first).toMatchObject({
      due: { date: readDay('2026-09-01'), tis: parseHours('1300'), cycles: 4400 },
      state: 'due',
      remaining: { hours: 0, days: 183, cycles: 400 },
    });
    const late = standOf(item({ rule: 'recurring', every, last, whichever: 'last' }), at, soon);
    expect(late.state).toBe('ok');
  });

  it('takes plain months to the same day, calendar months to the end of the month', () => {
    const on = (every: DueItem['every']) => {
      const done = { ...last, date: readDay('2025-08-31') };
      const { date } = standOf(item({ rule: 'recurring', every, last: done }), at, soon).due;
      return date === undefined ? undefined : writeDay(date);
    };
    expect(on({ months: 6 })).toBe('2026-02-28');
    expect(on({ calendarMonths: 6 })).toBe('2026-02-28');
    expect(on({ months: 7 })).toBe('2026-03-31');
    expect(on({ days: 90 })).toBe('2025-11-29');
    expect(on({ months: 6, days: 10 })).toBe('2025-09-10');
  });

  it('counts a life from when the part was fitted new, and for good from new', () => {
    const limit = { hours: parseHours('2000'), cycles: 5000 };
    const fresh = standOf(item({ rule: 'life_limit', limit, last }), at, soon);
    expect(fresh.due).toEqual({ tis: parseHours('3250'), cycles: 8900 });
    const old = standOf(item({ rule: 'life_limit', limit }), at, soon);
    expect(old.due).toEqual({ tis: parseHours('2000'), cycles: 5000 });
  });

  it('is over once it was done, where it is asked once', () => {
    const limit = { hours: parseHours('1290') };
    expect(standOf(item({ rule: 'once', limit }), at, soon).state).toBe('overdue');
    const done = standOf(item({ rule: 'once', limit, last }), at, soon);
    expect([done.state, done.due, done.remaining]).toEqual(['ok', {}, {}]);
  });

  it('has its first time at its limit, and never repeats past one', () => {
    const every = { hours: parseHours('100') };
    const limit = { hours: parseHours('1310') };
    expect(standOf(item({ rule: 'recurring', every, limit }), at, soon)).toMatchObject({
      due: { tis: parseHours('1310') },
      state: 'due_soon',
    });
    const capped = standOf(item({ rule: 'recurring', every, limit, last }), at, soon);
    expect(capped.due.tis).toBe(parseHours('1310'));
  });

  it('says soon within what was asked, and no sooner', () => {
    const due = (tis: string) =>
      standOf(item({ rule: 'once', limit: { hours: parseHours(tis) } }), at, soon).state;
    expect([due('1310'), due('1310.01'), due('1300'), due('1299.99')]).toEqual([
      ...['due_soon', 'ok', 'due', 'overdue'],
    ]);
  });

  it.each<[string, Partial<DueItem> & Pick<DueItem, 'rule'>, RegExp]>([
    ['no last', { rule: 'annual' }, /of rule annual needs last\.date/],
    ['no time in service', { rule: 'hundred_hour', last: { date: 0 } }, /needs last\.tis/],
    ['no interval', { rule: 'recurring', every: {}, last }, /at least one interval/],
    ['nothing at all', { rule: 'recurring', every: { days: 3 } }, /for its first time a limit/],
    ['no limit', { rule: 'life_limit' }, /needs limit/],
    [
      'an empty limit',
      { rule: 'once', limit: {} },
      /needs hours, cycles, landings, starts or a date in limit/,
    ],
    [
      'its own interval',
      { rule: 'hundred_hour', last, every: { hours: parseHours('50') } },
      /is every 100 hours/,
    ],
    [
      'an interval for a life',
      { rule: 'life_limit', limit: { cycles: 1 }, every: { days: 1 } },
      /has no interval/,
    ],
    [
      'the wrong months',
      { rule: 'calendar_months', last, every: { months: 24 } },
      /so many calendar months/,
    ],
    [
      'a limit for an annual',
      { rule: 'annual', last, limit: { date: 1 } },
      /has no limit of its own/,
    ],
    [
      'first and last',
      { rule: 'recurring', whichever: 'last', every: { days: 9 }, last, limit: { date: 1 } },
      /give one of the two/,
    ],
    [
      'the future',
      { rule: 'annual', last: { date: at.date + 1 } },
      /on 2026-03-03, and the aircraft stands at 2026-03-02/,
    ],
    [
      'a reading that goes back',
      { rule: 'hundred_hour', last: { tis: parseHours('1300.01') } },
      /at 1300\.01 h, and the aircraft stands at 1300\.00 h/,
    ],
    [
      'cycles unknown',
      { rule: 'life_limit', limit: { cycles: 9 } },
      /give the aircraft's as at\.cycles/,
    ],
  ])('refuses %s', (name, over, words) => {
    const where = name === 'cycles unknown' ? { date: at.date, tis: at.tis } : at;
    expect(() => standOf(item(over), where, soon)).toThrow(words);
  });
});

describe('whatever is asked', () => {
  const tis = fc.integer({ min: 0, max: 900_000 }).map(hundredths);
  const day = fc.integer({ min: readDay('1995-01-01'), max: readDay('2055-01-01') });
  const interval = fc.record(
    {
      hours: fc.integer({ min: 1, max: 500_000 }).map(hundredths),
      months: fc.integer({ min: 1, max: 200 }),
      calendarMonths: fc.integer({ min: 1, max: 200 }),
      days: fc.integer({ min: 1, max: 4000 }),
    },
    { requiredKeys: ['hours', 'days'] },
  );
  const far = { date: readDay('2099-01-01'), tis: parseHours('99999') };

  it('complied with earlier, it is never due later', () => {
    fc.assert(
      fc.property(
        interval,
        tis,
        day,
        fc.nat(5000),
        fc.nat(700),
        (every, hours, date, less, days) => {
          const due = (done: { tis: number; date: number }) =>
            standOf(
              item({
                rule: 'recurring',
                every,
                last: { tis: hundredths(done.tis), date: done.date },
              }),
              far,
              soon,
            ).due;
          const now = due({ tis: hours, date });
          const before = due({ tis: Math.max(0, hours - less), date: date - days });
          expect(before.tis!).toBeLessThanOrEqual(now.tis!);
          expect(before.date!).toBeLessThanOrEqual(now.date!);
        },
      ),
    );
  });

  it('done late or early, the 100 hours never run past 100 from when it was done', () => {
    fc.assert(
      fc.property(tis, fc.integer({ min: -9000, max: 9000 }), (doneAt, early) => {
        const dueAtTis = hundredths(Math.max(0, doneAt + early));
        const { due } = standOf(
          item({ rule: 'hundred_hour', last: { tis: doneAt, dueAtTis } }),
          far,
          soon,
        );
        expect(due.tis).toBe(Math.min(doneAt, dueAtTis) + 100_00);
      }),
    );
  });
});
