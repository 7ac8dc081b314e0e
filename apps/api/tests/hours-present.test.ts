import { describe, expect, test } from 'vitest';
import { hoursPresent } from '../src/hindsight/hours-present.ts';

const nobody = { week: [], exceptions: [] };
const days = (...weekdays: number[]) =>
  weekdays.map((weekday) => ({ weekday, fromMinute: 480, toMinute: 1020 }));
/** Monday to Friday, 8:00 to 17:00. */
const shop = { week: days(1, 2, 3, 4, 5), exceptions: [] };
const ran = (startedAt: string, endedAt: string) => ({
  personId: 'ann',
  startedAt: new Date(startedAt),
  endedAt: new Date(endedAt),
});
const at = { person: nobody, shop, timeZone: 'UTC' };

describe('hours present in a stretch over midnight', () => {
  test('of a night only the ends count: until they go, and from when they come', () => {
    expect(hoursPresent(ran('2026-03-02T15:00:00Z', '2026-03-03T09:00:00Z'), at)).toBe(3);
  });

  test('over a weekend, nobody is in on its days', () => {
    expect(hoursPresent(ran('2026-03-06T16:00:00Z', '2026-03-09T09:00:00Z'), at)).toBe(2);
  });

  test('who starts early was there early, and who stops late was there late', () => {
    expect(hoursPresent(ran('2026-03-02T06:00:00Z', '2026-03-03T19:00:00Z'), at)).toBe(22);
  });

  test('a night on which nobody is in by the calendar counts nothing', () => {
    expect(hoursPresent(ran('2026-03-07T20:00:00Z', '2026-03-08T02:00:00Z'), at)).toBe(0);
  });

  test('own hours and days away are theirs', () => {
    const person = {
      week: days(1, 2, 3).map((each) => ({ ...each, toMinute: 720 })),
      exceptions: [
        {
          firstDay: new Date('2026-03-03'),
          lastDay: new Date('2026-03-03'),
          fromMinute: null,
          toMinute: null,
        },
      ],
    };
    // Monday 10:00 to 12:00, Tuesday away, Wednesday 8:00 to 9:00.
    expect(
      hoursPresent(ran('2026-03-02T10:00:00Z', '2026-03-04T09:00:00Z'), { ...at, person }),
    ).toBe(3);
  });

  test('the shop’s own clock decides what a day is, also where summer begins', () => {
    // Lisbon springs forward on Sunday 2026-03-29; Monday's 8:00 is 7:00 in UTC.
    const lisbon = { ...at, timeZone: 'Europe/Lisbon' };
    expect(hoursPresent(ran('2026-03-27T16:00:00Z', '2026-03-30T08:00:00Z'), lisbon)).toBe(2);
  });

  test('unknown where nobody said when they are in; endless clocks end', () => {
    expect(
      hoursPresent(ran('2026-03-02T15:00:00Z', '2026-03-03T09:00:00Z'), { ...at, shop: nobody }),
    ).toBeNull();
    const years = hoursPresent(ran('1990-01-01T08:00:00Z', '2026-03-03T09:00:00Z'), at);
    expect(years).toBeLessThan(400 * 9);
  });
});
