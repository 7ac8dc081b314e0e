import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { hundredths, parseHours, readDueRequest, standOf, timeInService } from '../src/index.ts';
import { type OracleAt, type OracleItem, oracleState } from './due-oracle.ts';

/** The sentences quoted in the oracle are those of 14 CFR 91.409(a) and (b), as public copies of the regulation print them. */

const first = Temporal.PlainDate.from('1990-01-01');
const written = (hundredthsOfHour: number) =>
  `${Math.floor(hundredthsOfHour / 100)}.${String(hundredthsOfHour % 100).padStart(2, '0')}`;

/** As somebody would write the request: hours as text with two decimals. */
function answered(item: OracleItem, at: OracleAt, soon: { hours: number; days: number }) {
  const inHours = (of: Record<string, unknown> | undefined) =>
    of &&
    Object.fromEntries(
      Object.entries(of).map(([name, value]) => [
        name,
        ['hours', 'tis', 'dueAtTis'].includes(name) ? written(value as number) : value,
      ]),
    );
  const request = readDueRequest(
    JSON.parse(
      JSON.stringify({
        at: inHours({ ...at }),
        items: [
          {
            ...{ id: 'x', ...item },
            ...{ every: inHours(item.every), last: inHours(item.last), limit: inHours(item.limit) },
          },
        ],
        soon: inHours(soon),
      }),
    ),
  );
  return standOf(request.items[0]!, request.at, request.soon);
}

const at: fc.Arbitrary<OracleAt> = fc.record({
  // Every other day is the last of its month, where calendar months end.
  date: fc.tuple(fc.integer({ min: 3000, max: 25_900 }), fc.boolean()).map(([days, end]) => {
    const date = first.add({ days });
    return (end ? date.with({ day: date.daysInMonth }) : date).toString();
  }),
  tis: fc.integer({ min: 20_000, max: 900_000 }),
  ...{ cycles: fc.integer({ min: 300, max: 5000 }), landings: fc.integer({ min: 300, max: 5000 }) },
  starts: fc.integer({ min: 300, max: 5000 }),
});
/** Near the present, so that every state is met: days, hours and counts since it was done. */
const ago = fc.record({
  days: fc.oneof(fc.nat(2900), fc.constantFrom(28, 29, 30, 31, 59, 60, 365, 366, 730, 731)),
  ...{ tis: fc.oneof(fc.nat(20_000), fc.constantFrom(9000, 10_000, 10_001, 11_000, 11_001)) },
  ...{ cycles: fc.nat(300), landings: fc.nat(300), starts: fc.nat(300) },
});
const interval = fc.record(
  {
    hours: fc.oneof(fc.integer({ min: 1, max: 20_000 }), fc.constantFrom(5000, 10_000)),
    ...{ months: fc.integer({ min: 1, max: 90 }), calendarMonths: fc.integer({ min: 1, max: 90 }) },
    ...{ days: fc.integer({ min: 1, max: 2900 }), cycles: fc.integer({ min: 1, max: 300 }) },
    ...{ landings: fc.integer({ min: 1, max: 300 }), starts: fc.integer({ min: 1, max: 300 }) },
  },
  { requiredKeys: [] },
);
const soon = fc.record({
  hours: fc.oneof(fc.constant(0), fc.nat(3000)),
  days: fc.oneof(fc.constant(0), fc.nat(90)),
});
const rules = ['hundred_hour', 'annual', 'calendar_months', 'recurring', 'life_limit', 'once'];

/** So that a day on which it is just due is met. */
const monthsSince = (done: string, now: string) => {
  const [from, to] = [Temporal.PlainYearMonth.from(done), Temporal.PlainYearMonth.from(now)];
  return Math.max(1, from.until(to, { largestUnit: 'months' }).months);
};

interface Case {
  item: OracleItem;
  at: OracleAt;
  soon: { hours: number; days: number };
}
const anyCase: fc.Arbitrary<Case> = fc
  .record({
    ...{ at, ago, soon, every: interval, rule: fc.constantFrom(...rules) },
    ...{ whichever: fc.constantFrom('first' as const, 'last' as const), enRoute: fc.boolean() },
    early: fc.option(fc.integer({ min: -1500, max: 3000 })),
    done: fc.boolean(),
    limitAhead: fc.record({
      hours: fc.integer({ min: -500, max: 3000 }),
      days: fc.integer({ min: -40, max: 90 }),
    }),
    limitWith: fc.subarray(['hours', 'date', 'cycles', 'landings', 'starts'] as const, {
      minLength: 1,
    }),
  })
  .map(({ at: now, ago: since, every, rule, whichever, enRoute, early, done, ...over }): Case => {
    const last = {
      date: Temporal.PlainDate.from(now.date).subtract({ days: since.days }).toString(),
      ...{ tis: Math.max(0, now.tis - since.tis), cycles: now.cycles - since.cycles },
      ...{ landings: now.landings - since.landings, starts: now.starts - since.starts },
      ...(early !== null && { dueAtTis: Math.max(0, now.tis - since.tis + early) }),
    };
    const limit = Object.fromEntries(
      over.limitWith.map((name) => [
        name,
        name === 'hours'
          ? now.tis + over.limitAhead.hours
          : name === 'date'
            ? Temporal.PlainDate.from(now.date).add({ days: over.limitAhead.days }).toString()
            : now[name] + (over.limitAhead.days >> 3),
      ]),
    );
    const common = { rule, whichever, enRoute };
    const some = Object.keys(every).length > 0 ? every : { hours: 5000 };
    const item: OracleItem =
      rule === 'calendar_months'
        ? {
            ...common,
            last,
            every: { calendarMonths: every.calendarMonths ?? monthsSince(last.date, now.date) },
          }
        : rule === 'recurring'
          ? done
            ? { ...common, last, every: some }
            : { ...common, every: some, limit }
          : rule === 'life_limit'
            ? { ...common, limit }
            : rule === 'once'
              ? { ...common, limit, ...(done && { last }) }
              : { ...common, last };
    return { item, at: now, soon: over.soon };
  });

/** Several intervals by the calendar are one day on the list: of them the first, or the last, counts. */
const days = ['days', 'months', 'calendarMonths'] as const;

describe('against an oracle that only asks whether it may still be flown', () => {
  it('has the same state for any request', { timeout: 60_000 }, () => {
    const met = new Set<string>();
    fc.assert(
      fc.property(anyCase, ({ item, at: now, soon: early }) => {
        const { state } = answered(item, now, early);
        met.add(`${item.rule} ${state}`);
        expect(state).toBe(oracleState(item, now, early));
      }),
      { numRuns: 8000 },
    );
    for (const rule of rules)
      for (const state of ['ok', 'due_soon', 'due', 'overdue'])
        expect(met, `${rule} ${state} was met`).toContain(`${rule} ${state}`);
    expect(met).toContain('hundred_hour within_allowance');
  });

  it('may be flown up to the due point that is told, and no further', () => {
    fc.assert(
      fc.property(anyCase, ({ item, at: now, soon: early }) => {
        if (item.whichever === 'last' || item.enRoute) return;
        const { due } = answered(item, now, early);
        const there = (more: { tis?: number; days?: number; count?: number }): OracleAt => ({
          date:
            due.date === undefined
              ? '1900-01-01'
              : Temporal.PlainDate.from('1970-01-01')
                  .add({ days: due.date + (more.days ?? 0) })
                  .toString(),
          tis: due.tis === undefined ? 0 : due.tis + (more.tis ?? 0),
          cycles: due.cycles === undefined ? 0 : due.cycles + (more.count ?? 0),
          landings: due.landings === undefined ? 0 : due.landings + (more.count ?? 0),
          starts: due.starts === undefined ? 0 : due.starts + (more.count ?? 0),
        });
        if (Object.keys(due).length === 0) return;
        expect(oracleState(item, there({}), early)).toBe('due');
        if (due.tis !== undefined)
          expect(oracleState(item, there({ tis: 1 }), early)).toBe('overdue');
        if (due.date !== undefined)
          expect(oracleState(item, there({ days: 1 }), early)).toBe('overdue');
        if (due.cycles !== undefined)
          expect(oracleState(item, there({ count: 1 }), early)).toBe('overdue');
      }),
      { numRuns: 5000 },
    );
  });

  it('every day of 1990 to 2060: annual and 24 calendar months hold to the last day that counts, and not the next', {
    timeout: 60_000,
  }, () => {
    const wrong: string[] = [];
    const soonest = { hours: 0, days: 0 };
    for (let done = first; done.year <= 2060; done = done.add({ days: 1 }))
      for (const [rule, months] of [
        ['annual', 12],
        ['calendar_months', 24],
      ] as const) {
        const item = {
          rule,
          last: { date: done.toString() },
          ...(rule === 'calendar_months' && { every: { calendarMonths: months } }),
        };
        const end = done
          .toPlainYearMonth()
          .add({ months })
          .toPlainDate({ day: 1 })
          .add({ months: 1 });
        const state = (days: number) => {
          const now = {
            date: end.add({ days }).toString(),
            tis: 0,
            cycles: 0,
            landings: 0,
            starts: 0,
          };
          return [answered(item, now, soonest).state, oracleState(item, now, soonest)].join();
        };
        if (state(-1) !== 'due,due' || state(0) !== 'overdue,overdue')
          wrong.push(`${rule} ${done}`);
      }
    expect(wrong).toEqual([]);
  });
});

describe('whatever is asked', () => {
  it('done earlier it never holds longer', () => {
    fc.assert(
      fc.property(anyCase, fc.nat(2000), fc.nat(400), fc.nat(50), (given, hours, days, counts) => {
        const { item, at: now, soon: early } = given;
        if (!item.last || item.rule === 'once') return;
        const { date = '', tis = 0, cycles = 0, landings = 0, starts = 0 } = item.last;
        const sooner: OracleItem = {
          ...item,
          last: {
            ...item.last,
            date: Temporal.PlainDate.from(date).subtract({ days }).toString(),
            ...{ tis: Math.max(0, tis - hours), cycles: Math.max(0, cycles - counts) },
            ...{ landings: Math.max(0, landings - counts), starts: Math.max(0, starts - counts) },
          },
        };
        const [one, other] = [answered(sooner, now, early).due, answered(item, now, early).due];
        for (const name of ['tis', 'date', 'cycles', 'landings', 'starts'] as const)
          expect(one[name] ?? 0).toBeLessThanOrEqual(other[name] ?? 0);
      }),
      { numRuns: 5000 },
    );
  });

  it('a meter that is replaced, once or often, moves nothing (14 CFR 1.1)', () => {
    fc.assert(
      fc.property(
        anyCase,
        fc.array(fc.tuple(fc.nat(20_000), fc.nat(50_000)), { maxLength: 6 }),
        ({ item, at: now, soon: early }, changes) => {
          const readings: Parameters<typeof timeInService>[0]['readings'][number][] = [];
          let shown = 0;
          let total = 0;
          for (const [ran, fittedAt] of changes) {
            if (total + ran > now.tis) break;
            total += ran;
            readings.push({
              kind: 'replaced',
              removedAt: hundredths(shown + ran),
              installedAt: hundredths(fittedAt),
            });
            shown = fittedAt;
          }
          readings.push({ kind: 'read', reading: hundredths(shown + now.tis - total) });
          const known = timeInService({ readings });
          expect(known).toEqual({ known: true, timeInService: now.tis });
          const tis = known.known ? known.timeInService : 0;
          expect(answered(item, { ...now, tis }, early)).toEqual(answered(item, now, early));
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('of several intervals by the calendar the day told is the first, or the last', () => {
    fc.assert(
      fc.property(anyCase, ({ item, at: now, soon: early }) => {
        if (item.rule !== 'recurring' || !item.last || !item.every) return;
        const given = days.flatMap((name) => {
          const each = item.every?.[name];
          return each === undefined
            ? []
            : [answered({ ...item, every: { [name]: each } }, now, early).due.date!];
        });
        if (given.length === 0) return;
        const { date } = answered(item, now, early).due;
        expect(date).toBe(item.whichever === 'last' ? Math.max(...given) : Math.min(...given));
      }),
      { numRuns: 3000 },
    );
  });

  it('hours as text, as number and with a trailing 0 are the same', () => {
    const due = (tis: unknown) =>
      readDueRequest({ at: { date: '2026-03-02', tis }, items: [] }).at.tis;
    expect([due(1234.5), due('1234.5'), due('1234.50')]).toEqual(
      Array(3).fill(parseHours('1234.5')),
    );
  });
});
