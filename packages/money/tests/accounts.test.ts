/** Ages, statements and deposits. The classes of thirty days are common practice, no source; their borders are counted by hand. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ageClass, ageing, depositLeft, minor, setDeposits, statement } from '../src/index.ts';

const day = fc
  .integer({ min: 0, max: 4000 })
  .map((days) => new Date(Date.UTC(2028, 0, 1) + days * 86_400_000).toISOString().slice(0, 10));
const above = fc.bigInt({ min: 1n, max: 10n ** 12n }).map(minor);
const any = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n }).map(minor);
const sum = (amounts: readonly bigint[]) => amounts.reduce((all, each) => all + each, 0n);

// 2032 is a leap year: 31 January + 30 days is 1 March.
test.each([
  ['2032-01-31', '2032-01-30', 'not_due'],
  ['2032-01-31', '2032-01-31', 'not_due'],
  ['2032-01-31', '2032-02-01', 'to_30'],
  ['2032-01-31', '2032-03-01', 'to_30'],
  ['2032-01-31', '2032-03-02', 'to_60'],
  ['2032-01-31', '2032-03-31', 'to_60'],
  ['2032-01-31', '2032-04-01', 'to_90'],
  ['2032-01-31', '2032-04-30', 'to_90'],
  ['2032-01-31', '2032-05-01', 'over_90'],
  [null, '2032-05-01', 'not_due'],
])('due %s, on %s: %s', (dueOn, today, expected) => {
  expect(ageClass(dueOn, today)).toBe(expected);
});

test('the ages add up to what is owed, whatever is owed and whenever it is looked at', () => {
  const open = fc.array(fc.record({ owed: above, dueOn: fc.option(day) }), { maxLength: 40 });
  fc.assert(
    fc.property(open, day, (items, today) => {
      const { total, ...classes } = ageing(Object.freeze(items), today);
      expect(sum(Object.values(classes))).toBe(total);
      expect(total).toBe(sum(items.map(({ owed }) => owed)));
    }),
    { numRuns: 1000 },
  );
});

test('a debt only grows older', () => {
  const order = ['not_due', 'to_30', 'to_60', 'to_90', 'over_90'];
  fc.assert(
    fc.property(day, day, day, (dueOn, one, other) => {
      const [sooner, later] = [one, other].sort() as [string, string];
      const at = (today: string) => order.indexOf(ageClass(dueOn, today));
      expect(at(later)).toBeGreaterThanOrEqual(at(sooner));
    }),
    { numRuns: 1000 },
  );
});

test('what is to be paid back has no age, and 31 June is no day', () => {
  for (const owed of [0n, -1n].map(minor))
    expect(() => ageing([{ owed, dueOn: null }], '2031-01-01')).toThrow(RangeError);
  expect(() => ageClass('2031-06-31', '2031-07-01')).toThrow('"2031-06-31" is no day');
  expect(() => ageClass(null, 'today')).toThrow(RangeError);
});

const entries = fc.array(fc.record({ on: day, amount: any }), { maxLength: 40 });

test('a statement opens with what was, closes with what is, and adds up line by line', () => {
  fc.assert(
    fc.property(entries, day, day, (all, one, other) => {
      const [from, until] = [one, other].sort() as [string, string];
      const stated = statement(Object.freeze(all), from, until);
      const before = all.filter(({ on }) => on < from).map(({ amount }) => amount);
      const within = all.filter(({ on }) => on >= from && on <= until).map(({ amount }) => amount);
      expect(stated.opening).toBe(sum(before));
      expect(stated.closing).toBe(sum([...before, ...within]));
      let balance: bigint = stated.opening;
      for (const entry of stated.entries) {
        balance += entry.amount;
        expect(entry.balance).toBe(balance);
      }
      expect(balance).toBe(stated.closing);
      expect(stated.entries).toHaveLength(within.length);
      const days = stated.entries.map(({ on }) => on);
      expect(days).toEqual([...days].sort());
    }),
    { numRuns: 1000 },
  );
});

test('two stretches that join are one', () => {
  fc.assert(
    fc.property(entries, (all) => {
      const whole = statement(all, '2000-01-01', '2099-12-31');
      const first = statement(all, '2000-01-01', '2031-06-30');
      const second = statement(all, '2031-07-01', '2099-12-31');
      expect(second.opening).toBe(first.closing);
      expect([...first.entries, ...second.entries]).toEqual(whole.entries);
    }),
  );
});

test('deposits cover what is owed and no more, the oldest first, and nothing is made or lost', () => {
  const left = fc.array(fc.bigInt({ min: 0n, max: 10n ** 9n }).map(minor), { maxLength: 8 });
  fc.assert(
    fc.property(left, any, (each, owed) => {
      const set = setDeposits(Object.freeze(each), owed);
      const all = sum(each);
      const wanted = owed > 0n ? owed : minor(0n);
      expect(sum(set)).toBe(all < wanted ? all : wanted);
      set.forEach((part, index) => {
        expect(part).toBeGreaterThanOrEqual(0n);
        expect(part).toBeLessThanOrEqual(each[index] ?? 0n);
        // One is begun only when those before it are used up.
        if (part > 0n) expect(set.slice(0, index)).toEqual(each.slice(0, index));
      });
    }),
    { numRuns: 1000 },
  );
});

test('books in which more goes out of a deposit than came in are refused', () => {
  const of = (setAgainst: bigint[], refunds: bigint[]) =>
    depositLeft({
      amount: minor(100n),
      setAgainst: setAgainst.map(minor),
      refunds: refunds.map(minor),
    });
  expect(of([60n, -60n], [100n])).toBe(0n);
  for (const wrong of [
    [[101n], []],
    [[60n], [41n]],
    [[-1n], []],
  ] as [bigint[], bigint[]][])
    expect(() => of(...wrong)).toThrow(RangeError);
});
