import { Temporal } from 'temporal-polyfill';
import { expect, it } from 'vitest';
import {
  endOfMonthAfter,
  plusMonths,
  readDay,
  writeDay,
  yearMonthDay,
} from '../src/due/civil-days.ts';

// The oracle is Temporal (ECMA-262 proposal) as npm temporal-polyfill has it.

it('counts every day of 1990 to 2060 as Temporal does, with its months', () => {
  const wrong: string[] = [];
  let day = Temporal.PlainDate.from('1990-01-01');
  const first = readDay('1990-01-01');
  for (let passed = 0; day.year <= 2060; passed += 1) {
    const text = day.toString();
    const number = readDay(text);
    const end = day.toPlainYearMonth().add({ months: 12 });
    const same =
      number === first + passed &&
      writeDay(number) === text &&
      yearMonthDay(number).day === day.day &&
      writeDay(plusMonths(number, 1)) === day.add({ months: 1 }).toString() &&
      writeDay(plusMonths(number, 7)) === day.add({ months: 7 }).toString() &&
      writeDay(plusMonths(number, 24)) === day.add({ months: 24 }).toString() &&
      writeDay(endOfMonthAfter(number, 12)) ===
        end.toPlainDate({ day: end.daysInMonth }).toString();
    if (!same) wrong.push(text);
    day = day.add({ days: 1 });
  }
  expect(wrong).toEqual([]);
  expect(day.toString()).toBe('2061-01-01');
});

it.each(['1600-02-29', '1900-02-28', '1969-12-31', '2000-02-29', '2400-12-31', '9999-12-31'])(
  'reads and writes %s',
  (text) => {
    expect(writeDay(readDay(text))).toBe(text);
    const { year, month, day } = Temporal.PlainDate.from(text);
    expect(yearMonthDay(readDay(text))).toEqual({ year, month, day });
    expect(readDay(text)).toBe(
      Temporal.PlainDate.from('1970-01-01').until(text, { largestUnit: 'days' }).days,
    );
  },
);

it.each([
  '2025-02-29',
  '1900-02-29',
  '2026-04-31',
  '2026-13-01',
  '2026-00-10',
  '2026-1-1',
  '',
  '14 March',
])('refuses %j', (text) => {
  expect(() => readDay(text, 'last.date')).toThrow(/as last\.date: give a day that exists/);
});
