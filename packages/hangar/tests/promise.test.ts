import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dayAfter,
  daysBetween,
  freeMinutes,
  handMinutes,
  type PromiseAsked,
  promiseOf,
  type ShopDay,
  sayCivilDay,
} from '../src/index.ts';

// 2026-11-30 is a Monday (ISO 8601 week 49 of 2026).
const MONDAY = '2026-11-30';
const eight = [{ fromMinute: 480, toMinute: 960 }];
/** So many days from a Monday on, Saturday and Sunday nobody, with so many people in from 8 to 16. */
const weeks = (days: number, people = 1): ShopDay[] =>
  Array.from({ length: days }, (_, index) => ({
    day: dayAfter(MONDAY, index),
    people: index % 7 < 5 ? Array.from({ length: people }, () => eight) : [],
  }));
const from = { day: MONDAY, minute: 0 };
const ask = (more: Partial<PromiseAsked>): PromiseAsked => ({
  from,
  days: weeks(28),
  work: [{ draws: [8] }],
  ...more,
});
const p80 = (more: Partial<PromiseAsked>) => {
  const promise = promiseOf(ask(more));
  return promise.kind === 'promised' ? promise.p80 : promise.kind;
};

describe('against calendars counted by hand', () => {
  test.each([
    // [hours, what, the day on which they end, counted on a paper calendar]
    ['8 h, one person: Monday', { work: [{ draws: [8] }] }, '2026-11-30'],
    ['8.1 h run into Tuesday', { work: [{ draws: [8.1] }] }, '2026-12-01'],
    ['40 h fill the week', { work: [{ draws: [40] }] }, '2026-12-04'],
    ['40.5 h run over the weekend', { work: [{ draws: [40.5] }] }, '2026-12-07'],
    ['40 h, two people: Wednesday', { work: [{ draws: [40] }], days: weeks(28, 2) }, '2026-12-02'],
    [
      '40 h, six people, two at once: the same',
      { work: [{ draws: [40] }], days: weeks(28, 6) },
      '2026-12-02',
    ],
    [
      '40 h, six people, three at once: Tuesday',
      { work: [{ draws: [40] }], days: weeks(28, 6), handsAtOnce: 3 },
      '2026-12-01',
    ],
    [
      '8 h from noon on: 4 on Monday',
      { work: [{ draws: [8] }], from: { day: MONDAY, minute: 720 } },
      '2026-12-01',
    ],
    [
      '4 h now and 4 h from Thursday on: Thursday',
      { work: [{ draws: [4] }, { draws: [4], wait: { words: 'the hose', until: '2026-12-03' } }] },
      '2026-12-03',
    ],
    [
      '30 h now, 4 h from Tuesday on: the wait costs nothing',
      { work: [{ draws: [30] }, { draws: [4], wait: { words: 'the hose', until: '2026-12-01' } }] },
      '2026-12-04',
    ],
    [
      '30 h now, 10 h from Friday on: 8 on Friday, 2 on Monday',
      {
        work: [{ draws: [30] }, { draws: [10], wait: { words: 'the hose', until: '2026-12-04' } }],
      },
      '2026-12-07',
    ],
    [
      'one person, another aircraft with 12 h: half of each day until Wednesday evening, then the whole',
      { work: [{ draws: [16] }], others: [{ from: MONDAY, hours: 12 }] },
      '2026-12-03',
    ],
    [
      'four people and one other aircraft: two for each, so nothing is lost',
      { work: [{ draws: [16] }], days: weeks(28, 4), others: [{ from: MONDAY, hours: 100 }] },
      '2026-11-30',
    ],
    [
      'a part expected in the past holds nothing up',
      { work: [{ draws: [8], wait: { words: 'the hose', until: '2026-11-02' } }] },
      '2026-11-30',
    ],
    ['no hours left: today', { work: [{ draws: [0] }] }, '2026-11-30'],
    ['no work at all: today', { work: [] }, '2026-11-30'],
    [
      'no hours left, but a wait',
      { work: [{ draws: [0], wait: { words: 'the hose', until: '2026-12-09' } }] },
      '2026-12-09',
    ],
  ] satisfies [string, Partial<PromiseAsked>, string][])('%s', (_, more, day) => {
    expect(p80(more)).toBe(day);
  });

  test('the days are those of the draws: five in ten by P50, eight in ten by P80', () => {
    // Ten draws, 8 h a day: 1 to 5 h end on Monday, 9 to 11 h on Tuesday, 17 and 100 h later.
    const draws = [1, 2, 3, 4, 5, 9, 10, 11, 17, 100];
    expect(promiseOf(ask({ work: [{ draws }] }))).toMatchObject({
      p50: '2026-11-30',
      p80: '2026-12-01',
      sentence:
        'As likely as not by Mon 30 Nov, four in five by Tue 1 Dec: the work itself is most of it, 5 to 11 hands-on hours.',
    });
  });

  test('a week in which the shop is closed', () => {
    const days = weeks(28).map((each, index) => ({
      ...each,
      usual: each.people,
      people: index < 7 ? [] : each.people,
    }));
    expect(promiseOf(ask({ days, work: [{ draws: [8] }] }))).toMatchObject({
      p80: '2026-12-07',
      parts: { work: 0, away: 7, others: 0, waits: 0 },
      sentence:
        'Four times in five by Mon 7 Dec: most of it is that people are away or the shop is closed: 7 of the 7 days.',
    });
  });

  test('the parts of a promise add up, the largest is named', () => {
    const promise = promiseOf(
      ask({
        work: [{ draws: [12] }, { draws: [4], wait: { words: 'the hose', until: '2026-12-14' } }],
        others: [{ from: MONDAY, hours: 12 }],
      }),
    );
    expect(promise).toMatchObject({
      p50: '2026-12-14',
      p80: '2026-12-14',
      // 16 h alone: Tuesday. With the other aircraft: Thursday. The hose: eleven days more.
      parts: { work: 1, away: 0, others: 2, waits: 11 },
      sentence:
        'Four times in five by Mon 14 Dec: most of it is the wait for the hose, until Mon 14 Dec: 11 of the 14 days.',
    });
  });
});

describe('when no day can be promised', () => {
  test('nobody knows when something comes: what, and what could be if it came now', () => {
    expect(
      promiseOf(
        ask({ work: [{ draws: [8] }, { draws: [8], wait: { words: 'the hose', until: null } }] }),
      ),
    ).toEqual({
      kind: 'not_known',
      waits: ['the hose'],
      atBest: { p50: '2026-12-01', p80: '2026-12-01' },
      sentence:
        'No day can be promised until it is known when this comes: the hose. If it came now: four times in five by Tue 1 Dec.',
    });
  });

  test('nobody is in', () => {
    expect(promiseOf(ask({ days: weeks(28, 0) }))).toEqual({
      kind: 'nobody_in',
      sentence: 'No day can be promised: nobody is in from Mon 30 Nov to Sun 27 Dec.',
    });
  });

  test('ten thousand hours, four weeks', () => {
    expect(p80({ work: [{ draws: [10_000] }] })).toBe('too_far');
    // Two people, 16 h a day, 80 h a week: 125 weeks.
    expect(p80({ work: [{ draws: [10_000] }], days: weeks(900, 2) })).toBe(
      dayAfter(MONDAY, 124 * 7 + 4),
    );
  });

  test('a wait for a day past the last that is looked at', () => {
    expect(p80({ work: [{ draws: [1], wait: { words: 'the hose', until: '2027-06-01' } }] })).toBe(
      'too_far',
    );
  });

  test.each([
    [{ work: [{ draws: [Number.NaN] }] }, 'NaN hours cannot be worked'],
    [{ work: [{ draws: [-1] }] }, '-1 hours cannot be worked'],
    [{ work: [{ draws: [Number.POSITIVE_INFINITY] }] }, 'Infinity hours cannot be worked'],
    [{ others: [{ from: MONDAY, hours: -2 }] }, '-2 hours cannot be worked'],
    [{ work: [{ draws: [1] }, { draws: [1, 2] }] }, 'Give all work the same number of draws'],
    [{ work: [{ draws: [] }] }, 'Give all work the same number of draws'],
    [{ days: [] }, 'Day 1 is missing'],
    [{ days: weeks(3).toSpliced(1, 1) }, 'Day 2 is 2026-12-02'],
    [{ handsAtOnce: 0 }, '0 people at once'],
    [{ from: { day: MONDAY, minute: 1500 } }, 'Minute 1500 is in no day'],
    [{ from: { day: '2026-02-30', minute: 0 } }, '"2026-02-30" is no civil day'],
  ] satisfies [Partial<PromiseAsked>, string][])('%j is refused', (more, words) => {
    expect(() => promiseOf(ask(more))).toThrow(words);
  });

  test('a piece that ends before it begins is refused', () => {
    expect(() => handMinutes([[{ fromMinute: 600, toMinute: 540 }]], { hands: 1 })).toThrow(
      RangeError,
    );
  });
});

describe('what holds for every shop', () => {
  const pieces = fc
    .tuple(fc.integer({ min: 0, max: 1439 }), fc.integer({ min: 1, max: 700 }))
    .map(([fromMinute, length]) => [{ fromMinute, toMinute: Math.min(1440, fromMinute + length) }]);
  const days = fc
    .array(fc.array(pieces, { maxLength: 5 }), { minLength: 30, maxLength: 30 })
    .map((each) => each.map((people, index) => ({ day: dayAfter(MONDAY, index), people })));
  const hours = fc.double({ min: 0, max: 60, noNaN: true });
  const until = fc.integer({ min: -3, max: 20 }).map((index) => dayAfter(MONDAY, index));
  const work = fc.array(
    fc.record({
      draws: fc.array(hours, { minLength: 9, maxLength: 9 }),
      wait: fc.option(
        until.map((day) => ({ words: 'a part', until: day })),
        { nil: undefined },
      ),
    }),
    { minLength: 1, maxLength: 4 },
  );
  const others = fc.array(fc.record({ from: until, hours }), { maxLength: 3 });
  const asked = fc.record({ days, work, others, handsAtOnce: fc.integer({ min: 1, max: 3 }) }).map(
    (given) =>
      ({
        from,
        ...given,
        work: given.work.map(({ draws, wait }) => (wait ? { draws, wait } : { draws })),
      }) satisfies PromiseAsked,
  );
  /** Days until the P50 and P80; without end where none is promised. */
  const counted = (given: PromiseAsked) => {
    const promise = promiseOf(given);
    return promise.kind === 'promised'
      ? [daysBetween(MONDAY, promise.p50), daysBetween(MONDAY, promise.p80)]
      : [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  };
  const noEarlier = (one: PromiseAsked, other: PromiseAsked) => {
    const [early, late] = [counted(one), counted(other)];
    expect(late[0]).toBeGreaterThanOrEqual(early[0]!);
    expect(late[1]).toBeGreaterThanOrEqual(early[1]!);
  };
  const all = (property: (given: PromiseAsked) => void) => fc.assert(fc.property(asked, property));

  test('P80 is never before P50, and the parts add up to it', () => {
    all((given) => {
      const promise = promiseOf(given);
      if (promise.kind !== 'promised') return;
      expect(promise.p80 >= promise.p50).toBe(true);
      const { work: itself, away, others: more, waits } = promise.parts;
      expect(itself + away + more + waits).toBe(daysBetween(MONDAY, promise.p80));
      expect(Math.min(itself, away, more, waits)).toBeGreaterThanOrEqual(0);
    });
  });

  test('more hours are never sooner', () => {
    fc.assert(
      fc.property(asked, hours, (given, more) =>
        noEarlier(given, {
          ...given,
          work: given.work.map((each) => ({
            ...each,
            draws: each.draws.map((draw) => draw + more),
          })),
        }),
      ),
    );
  });

  test('one more person in is never later', () => {
    fc.assert(
      fc.property(asked, pieces, (given, one) =>
        noEarlier(
          {
            ...given,
            days: given.days.map((each) => ({ ...each, people: [...each.people, one] })),
          },
          given,
        ),
      ),
    );
  });

  test('a longer wait is never sooner, and other work neither', () => {
    fc.assert(
      fc.property(asked, fc.integer({ min: 1, max: 9 }), hours, (given, longer, more) => {
        noEarlier(given, {
          ...given,
          work: given.work.map((each) => ({
            ...each,
            wait: { words: 'a part', until: dayAfter(each.wait?.until ?? MONDAY, longer) },
          })),
        });
        noEarlier(given, { ...given, others: [...given.others!, { from: MONDAY, hours: more }] });
      }),
    );
  });

  test('splitting work that waits for nothing changes nothing', () => {
    all((given) => {
      const half = given.work.map((each) => ({
        ...each,
        draws: Array.from(each.draws, (draw) => draw / 2),
      }));
      expect(counted({ ...given, work: [...half, ...half] })).toEqual(counted(given));
    });
  });

  test('it changes nothing that it was given, and says the same again', () => {
    all((given) => {
      const before = structuredClone(given);
      expect(promiseOf(given)).toEqual(promiseOf(before));
      expect(given).toEqual(before);
    });
  });

  test('minutes free for one are within what its hands can do and what the people in have', () => {
    all(({ days: given, others: more = [], handsAtOnce = 2 }) => {
      const free = freeMinutes(given, { from, hands: handsAtOnce, others: more });
      for (const [index, { people }] of given.entries()) {
        const own = handMinutes(people, { hands: handsAtOnce });
        expect(free[index]).toBeLessThanOrEqual(own + 1e-9);
        expect(free[index]).toBeGreaterThanOrEqual(own / (more.length + 1) - 1e-9);
      }
    });
  });
});

test('civil days across the end of a year', () => {
  expect(sayCivilDay('2027-01-04', '2026-11-30')).toBe('Mon 4 Jan 2027');
  expect(daysBetween('2026-10-24', '2026-10-26')).toBe(2);
});
