import { describe, expect, it } from 'vitest';
import { lostWith } from '../features/people/people-words.ts';
import {
  hoursOfDayText,
  readHoursOfDay,
  stripReach,
  timeText,
} from '../features/people/week-words.ts';

const piece = (fromMinute: number, toMinute: number) => ({ fromMinute, toMinute });

describe('hours of a day', () => {
  it.each([
    ['7:30-12, 13-17', [piece(450, 720), piece(780, 1020)]],
    ['7.30 – 12', [piece(450, 720)]],
    ['0 to 24', [piece(0, 1440)]],
    ['  ', []],
  ])('are read from "%s"', (typed, read) => {
    expect(readHoursOfDay(typed)).toEqual(read);
  });

  it.each(['17-8', '8-8', '8', '8-25', '8:60-9', '7:30-12, 13-', 'all day', '-1-5'])(
    'are not read from "%s"',
    (typed) => {
      expect(readHoursOfDay(typed)).toBeNull();
    },
  );

  it('are written so that they are read as the same', () => {
    for (let from = 0; from < 1440; from += 35)
      for (let to = from + 5; to <= 1440; to += 55)
        expect(readHoursOfDay(hoursOfDayText([piece(from, to)]))).toEqual([piece(from, to)]);
    expect([timeText(450), timeText(1440), hoursOfDayText([])]).toEqual(['7:30', '24:00', '']);
  });

  it('fit on their strip, whole hours, never less than 7 to 17', () => {
    expect(stripReach([])).toEqual({ from: 420, to: 1020 });
    expect(stripReach([piece(375, 600), piece(900, 1055)])).toEqual({ from: 360, to: 1080 });
  });
});

it('what is lost with a role is said, and what is gained is not', () => {
  expect(lostWith(['mechanic', 'inspector'], ['mechanic', 'manager'])).toEqual([
    'assess findings, initial items and sign entries',
  ]);
  expect(lostWith(['mechanic'], ['mechanic'])).toEqual([]);
});
