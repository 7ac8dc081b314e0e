import { type DueItem, hundredths, parseHours, readDay, standOf } from '@fairlead/airworthiness';
import { expect, it } from 'vitest';

const soon = { hours: parseHours('10'), days: 30 };
const now = { date: readDay('2026-03-02'), tis: parseHours('4000'), cycles: 9000 };

/** Items of every rule, as an aircraft's programme has them. Invented. */
const programme: readonly DueItem[] = Array.from({ length: 150 }, (_, k): DueItem => {
  const last = { date: now.date - 7 * k, tis: hundredths(now.tis - 500 * k), cycles: 8000 - k };
  const given = { id: `item ${k}`, whichever: 'first', enRoute: false, last } as const;
  if (k % 5 === 0) return { ...given, rule: 'hundred_hour' };
  if (k % 5 === 1) return { ...given, rule: 'annual' };
  if (k % 5 === 2) return { ...given, rule: 'calendar_months', every: { calendarMonths: 24 } };
  if (k % 5 === 3) return { ...given, rule: 'life_limit', limit: { hours: parseHours('2200') } };
  return {
    ...given,
    rule: 'recurring',
    every: { hours: parseHours('50'), months: 12, cycles: 900 },
  };
});

/** Wanted: 50 ms for 20 aircraft, 500 ms for 500, of 150 items each. */
it.each([
  [20, 50],
  [500, 500],
])('the due list of %i aircraft', (aircraft, most) => {
  const list = () => {
    const began = performance.now();
    let overdue = 0;
    for (let each = 0; each < aircraft; each += 1)
      for (const item of programme) if (standOf(item, now, soon).state === 'overdue') overdue += 1;
    return { ms: performance.now() - began, overdue };
  };
  const first = list();
  const [, middle] = [list(), list(), list()].sort((one, other) => one.ms - other.ms);
  console.info(
    `${aircraft} × 150 items: first ${first.ms.toFixed(0)} ms, then ${middle!.ms.toFixed(0)} ms; ${middle!.overdue} overdue`,
  );
  expect(middle!.ms).toBeLessThan(most);
});
