import { expect, test } from 'vitest';
import { civilDay, dayBegins } from '../src/civil-day.ts';

// Time zones by the IANA database: Chatham is 12:45 or 13:45 ahead, Santiago changes its clocks at midnight.
test.each([
  ['2031-05-04T23:30:00Z', 'UTC', '2031-05-04'],
  ['2031-05-04T23:30:00Z', 'Europe/Berlin', '2031-05-05'],
  ['2031-05-05T03:59:00Z', 'America/New_York', '2031-05-04'],
  ['2031-05-04T11:30:00Z', 'Pacific/Chatham', '2031-05-05'],
])('%s is of the day %s in %s', (instant, zone, day) => {
  expect(civilDay(new Date(instant), zone)).toEqual(new Date(`${day}T00:00:00Z`));
});

test('a day begins where the shop is, and is 23 or 25 hours where its clocks change', () => {
  const hours = (day: string, zone: string) => {
    const at = new Date(`${day}T00:00:00Z`);
    return (dayBegins(at, zone, 1).getTime() - dayBegins(at, zone).getTime()) / 3_600_000;
  };
  expect(dayBegins(new Date('2031-01-01T00:00:00Z'), 'Europe/Berlin')).toEqual(
    new Date('2030-12-31T23:00:00Z'),
  );
  expect(hours('2026-03-29', 'Europe/Berlin')).toBe(23);
  expect(hours('2026-10-25', 'Europe/Berlin')).toBe(25);
  // Where midnight itself is skipped, the day begins at one.
  expect(dayBegins(new Date('2026-09-06T00:00:00Z'), 'America/Santiago')).toEqual(
    new Date('2026-09-06T04:00:00Z'),
  );
});

test('each moment of a day is of that day, to its last', () => {
  const day = new Date('2026-10-25T00:00:00Z');
  for (const zone of ['UTC', 'Europe/Berlin', 'America/Los_Angeles', 'Pacific/Chatham']) {
    expect(civilDay(dayBegins(day, zone), zone)).toEqual(day);
    expect(civilDay(new Date(dayBegins(day, zone, 1).getTime() - 1), zone)).toEqual(day);
  }
});
