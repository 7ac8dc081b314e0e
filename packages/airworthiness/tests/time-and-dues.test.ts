import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import {
  annualDue,
  calendarMonthsDue,
  formatHours,
  hundredHourDue,
  hundredHourStanding,
  hundredths,
  type MeterReading,
  parseHours,
  timeInService,
} from '../src/index.ts';

const h = parseHours;
const time = fc.nat({ max: 2_000_000 }).map(hundredths);

describe('hours', () => {
  test('read back as written', () => {
    fc.assert(
      fc.property(time, (value) => {
        expect(parseHours(formatHours(value))).toBe(value);
      }),
    );
  });

  test.each(['', '-1', '1.234', '1,5', '1e3', '12345678', ' 1'])('refuses %j', (text) => {
    expect(() => parseHours(text)).toThrow(`Cannot read ${JSON.stringify(text)} as hours`);
  });

  test.each([-1, 0.5, Number.NaN, 100_000_001])('refuses %d hundredths', (value) => {
    expect(() => hundredths(value)).toThrow(`Cannot use ${value} hundredths`);
  });
});

describe('time in service from meter readings', () => {
  const read = (text: string): MeterReading => ({ kind: 'read', reading: h(text) });
  const replaced = (removedAt: string, installedAt: string): MeterReading => ({
    kind: 'replaced',
    removedAt: h(removedAt),
    installedAt: h(installedAt),
  });

  test('a meter replaced at 2450.3 by one at 0.0, now 12.7: 2463.0 h', () => {
    expect(timeInService({ readings: [replaced('2450.3', '0.0'), read('12.7')] })).toEqual({
      known: true,
      timeInService: 246300,
    });
  });

  test('a used meter counts only from where it stood when it was fitted', () => {
    const readings = [read('100.0'), replaced('110.0', '700.5'), read('701.0')];
    expect(timeInService({ readings })).toEqual({ known: true, timeInService: 11050 });
  });

  test('an aircraft whose first meter is long gone starts from its total', () => {
    const start = { total: h('3400.0'), reading: h('120.0') };
    expect(timeInService({ readings: [read('121.5')], start })).toEqual({
      known: true,
      timeInService: 340150,
    });
  });

  test('a backward reading is refused with both figures and what to do', () => {
    expect(timeInService({ readings: [read('120.0'), read('12.0')] })).toEqual({
      known: false,
      sentence:
        'Cannot take the reading 12.00 h: the last was 120.00 h, and a meter does not run backwards; check the figure, or enter that the meter was replaced',
    });
    expect(timeInService({ readings: [read('120.0'), replaced('119.9', '0')] }).known).toBe(false);
    expect(timeInService({ readings: [] }).known).toBe(false);
  });

  test('a replacement anywhere moves nothing', () => {
    const runs = fc.array(fc.nat({ max: 5000 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(runs, fc.nat(), time, (hours, where, fitted) => {
        const plain: MeterReading[] = [];
        const changed: MeterReading[] = [];
        let meter = 0;
        let shift = 0;
        hours.forEach((run, index) => {
          meter += run;
          plain.push({ kind: 'read', reading: hundredths(meter) });
          if (index === where % hours.length) {
            changed.push({ kind: 'replaced', removedAt: hundredths(meter), installedAt: fitted });
            shift = fitted - meter;
          } else {
            changed.push({ kind: 'read', reading: hundredths(meter + shift) });
          }
        });
        expect(timeInService({ readings: Object.freeze(changed) })).toEqual(
          timeInService({ readings: plain }),
        );
      }),
      { numRuns: 1000 },
    );
  });
});

describe('100-hour inspection, 14 CFR 91.409(b)', () => {
  test('done 1234.5: next due 1334.5, en-route limit 1344.5', () => {
    const { due, enRouteLimit } = hundredHourDue({ doneAt: h('1234.5') });
    expect([due, enRouteLimit]).toEqual([h('1334.5'), h('1344.5')]);
  });

  test('due 1334.5, done early at 1320.0: next due 1420.0 ("within the preceding 100 hours")', () => {
    expect(hundredHourDue({ doneAt: h('1320.0'), previousDue: h('1334.5') }).due).toBe(h('1420.0'));
  });

  test('due 1334.5, flown en route to 1338.7: next due 1434.5, the excess counts', () => {
    expect(hundredHourDue({ doneAt: h('1338.7'), previousDue: h('1334.5') }).due).toBe(h('1434.5'));
  });

  test('due 1334.5, done at 1344.5: allowed ("not more than 10 hours"), next due 1434.5', () => {
    const next = hundredHourDue({ doneAt: h('1344.5'), previousDue: h('1334.5') });
    expect([next.due, next.doneTooLate]).toEqual([h('1434.5'), false]);
    const standing = hundredHourStanding({ due: h('1334.5'), at: h('1344.5'), enRoute: true });
    expect(standing.state).toBe('within_allowance');
  });

  test('due 1334.5, at 1344.6: past the allowance, flagged and none offered', () => {
    const standing = hundredHourStanding({ due: h('1334.5'), at: h('1344.6'), enRoute: true });
    expect(standing.state).toBe('overdue');
    expect(standing.because).toContain('no allowance applies');
    const next = hundredHourDue({ doneAt: h('1344.6'), previousDue: h('1334.5') });
    expect(next.doneTooLate).toBe(true);
    expect(next.because).toContain('91.409(b)');
  });

  test('due 1334.5, at 1336.0 on a local flight: overdue, the allowance is for en route only', () => {
    const standing = hundredHourStanding({ due: h('1334.5'), at: h('1336.0'), enRoute: false });
    expect(standing.state).toBe('overdue');
    expect(standing.because).toContain('only for reaching');
  });

  test('exactly at the due time it still stands', () => {
    const standing = hundredHourStanding({ due: h('1334.5'), at: h('1334.5'), enRoute: false });
    expect(standing.state).toBe('ok');
  });

  test('done earlier is never due later', () => {
    fc.assert(
      fc.property(time, time, time, (one, other, due) => {
        const [early, late] = one < other ? [one, other] : [other, one];
        const next = (doneAt: typeof one) => hundredHourDue({ doneAt, previousDue: due }).due;
        expect(next(early)).toBeLessThanOrEqual(next(late));
      }),
    );
  });
});

describe('calendar months', () => {
  test.each([
    ['2025-03-14', '2026-03-31'],
    ['2025-03-01', '2026-03-31'],
    ['2025-03-31', '2026-03-31'],
    ['2024-02-29', '2025-02-28'],
    ['2023-02-10', '2024-02-29'],
  ])('annual approved %s: good through %s (14 CFR 91.409(a))', (approved, through) => {
    expect(annualDue(approved).goodThrough).toBe(through);
  });

  test('annual of 2025-03-14 is overdue from 2026-04-01', () => {
    expect(annualDue('2025-03-14').overdueFrom).toBe('2026-04-01');
  });

  test('altimeter and transponder tested 2024-11-05: through 2026-11-30 (91.411, 91.413)', () => {
    expect(calendarMonthsDue('2024-11-05', 24, '14 CFR 91.411, 91.413').goodThrough).toBe(
      '2026-11-30',
    );
  });

  test('emergency transmitter inspected 2025-08-05: by 2026-08-31 (91.207(d))', () => {
    expect(calendarMonthsDue('2025-08-05', 12, '14 CFR 91.207(d)').goodThrough).toBe('2026-08-31');
  });

  test('every day of 1990 to 2060: the last day of the same month a year on, never sooner than 365 days', () => {
    const end = Temporal.PlainDate.from('2060-12-31');
    let day = Temporal.PlainDate.from('1990-01-01');
    while (Temporal.PlainDate.compare(day, end) <= 0) {
      const through = Temporal.PlainDate.from(annualDue(day.toString()).goodThrough);
      const sameMonth = through.year === day.year + 1 && through.month === day.month;
      if (!sameMonth || through.day !== through.daysInMonth || day.until(through).days < 365) {
        throw new Error(`${day.toString()} gave ${through.toString()}`);
      }
      day = day.add({ days: 1 });
    }
    expect(day.toString()).toBe('2061-01-01');
  });

  test.each(['2025-02-29', '2025-13-01', '14.03.2025', '2025-3-1', ''])('refuses %j', (text) => {
    expect(() => annualDue(text)).toThrow(RangeError);
  });

  test.each([0, -1, 1.5, 1201])('refuses %d months', (months) => {
    expect(() => calendarMonthsDue('2025-01-01', months)).toThrow(`Cannot count ${months}`);
  });
});
