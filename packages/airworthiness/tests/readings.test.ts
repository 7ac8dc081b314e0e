import { describe, expect, it } from 'vitest';
import { parseHours, questionReading, readDay, readFlightList, writeDay } from '../src/index.ts';

/** What is odd about a reading is common practice, no source. */
describe('a reading is questioned', () => {
  const last = { date: readDay('2026-03-01'), reading: parseHours('1300') };
  const use = { usual: 30, least: 0, most: 100 };
  it.each([
    ['2026-03-14', '1312.4', null, null],
    ['2026-03-01', '1300', null, null],
    ['2026-03-01', '1310', null, null],
    ['2026-03-14', '1299.99', null, /goes backwards: 1299\.99 h, and it read 1300\.00 h before/],
    ['2026-03-01', '1310.01', null, /10\.01 h in 1 day are over 10 h a day/],
    ['2026-03-02', '1349', null, /49\.00 h in 2 days are more than the days have/],
    ['2026-03-14', '1342', use, null],
    ['2026-03-14', '1342.01', use, /over three times its busiest use/],
    // A few hours after a quiet time are nothing odd.
    ['2026-03-14', '1320', { usual: 1, least: 0, most: 2 }, null],
  ])('on %s at %s h', (date, reading, flown, why) => {
    const said = questionReading(
      last,
      { date: readDay(date), reading: parseHours(reading) },
      flown,
    );
    if (why === null) expect(said).toBeNull();
    else expect(said).toMatch(why);
  });
});

describe('a list of flights', () => {
  const now = { after: readDay('2026-02-28'), today: readDay('2026-03-14') };
  it('in any order of columns and days, minutes or decimals', () => {
    const { flights, refused } = readFlightList(
      '\uFEFFFlight_Time,date,starts\r\n1:15,2026-03-12,2\r\n"0,5",2026-03-02,\r\n',
      now,
    );
    expect(refused).toEqual([]);
    expect(flights.map(({ date, ...flight }) => ({ ...flight, date: writeDay(date) }))).toEqual([
      { line: 3, date: '2026-03-02', time: 50, landings: 1, starts: 1, cycles: 1 },
      { line: 2, date: '2026-03-12', time: 125, landings: 1, starts: 2, cycles: 1 },
    ]);
  });
  it('is refused whole, each cell with its line, what was given and what is needed', () => {
    const { flights, refused } = readFlightList(
      [
        'date,flight_time,landings',
        '2026-03-02,1.0,1',
        '2026-02-29,1.0,1',
        '2026-02-28,1.0,1',
        '2026-03-15,1.0,1',
        '2026-03-03,25,1',
        '2026-03-03,0,1',
        '2026-03-03,1:75,-2',
        '2026-03-04,1,1,9',
      ].join('\n'),
      now,
    );
    expect(flights).toEqual([]);
    expect(refused.map(({ line, column, problem }) => [line, column, problem])).toEqual([
      [3, 'date', 'is no day that exists'],
      [4, 'date', 'is counted already by the last reading'],
      [5, 'date', 'lies in the future'],
      [6, 'flight_time', 'is no time of a flight'],
      [7, 'flight_time', 'is no time of a flight'],
      [8, 'flight_time', 'is no time of a flight'],
      [8, 'landings', 'is no number of them'],
      [9, '', 'has 4 cells'],
    ]);
    expect(refused[0]).toMatchObject({ value: '2026-02-29', needed: 'a day such as 2026-03-14' });
  });
  it.each([
    ['', /missing column|holds no row/],
    ['date,flight_time\n', /holds no row/],
    ['date\n2026-03-02\n', /missing column/],
    ['date,date,flight_time\n', /comes twice/],
    ['date,flight_time,pilot\n', /not a known column/],
    ['date,flight_time\n"2026', /is not CSV/],
    [`date,flight_time\n${'2026-03-02,1\n'.repeat(5001)}`, /too many rows/],
  ])('%.30j', (text, why) => {
    expect(readFlightList(text, now).refused[0]?.problem).toMatch(why);
  });
});
