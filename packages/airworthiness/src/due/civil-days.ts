import type { CivilDate } from '../civil-date.ts';

/**
 * Days of the calendar as whole numbers, 0 being 1 January 1970, so that thousands of due items cost integer
 * arithmetic. The Gregorian calendar counted in eras of 400 years, each year beginning in March so that the odd day comes
 * last (the method of Hinnant's "chrono-compatible low-level date algorithms"). Temporal is the oracle in the tests.
 */
export type CivilDay = number;

export interface YearMonthDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

export function dayNumber({ year, month, day }: YearMonthDay): CivilDay {
  const y = month > 2 ? year : year - 1;
  const era = Math.floor(y / 400);
  const ofEra = y - era * 400;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  return (
    era * 146_097 + ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear - 719_468
  );
}

export function yearMonthDay(number: CivilDay): YearMonthDay {
  const shifted = number + 719_468;
  const era = Math.floor(shifted / 146_097);
  const ofEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) /
      365,
  );
  const ofYear =
    ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * ofYear + 2) / 153);
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: ofYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1,
  };
}

/** @throws RangeError for what is no day that exists */
export function readDay(text: string, what = 'date'): CivilDay {
  const [, y = '', m = '', d = ''] = DATE.exec(text) ?? [];
  const [year, month, day] = [Number(y), Number(m), Number(d)];
  if (y === '' || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) {
    throw new RangeError(
      `Cannot use ${JSON.stringify(text)} as ${what}: give a day that exists, such as "2026-03-14"`,
    );
  }
  return dayNumber({ year, month, day });
}

const digits = (value: number, places: number) => String(value).padStart(places, '0');

export function writeDay(number: CivilDay): CivilDate {
  const { year, month, day } = yearMonthDay(number);
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(day, 2)}`;
}

/** So many months on, the same day of the month; its last day where it has no such day. */
export function plusMonths(number: CivilDay, months: number): CivilDay {
  const { year, month, day } = yearMonthDay(number);
  const whole = year * 12 + month - 1 + months;
  const [y, m] = [Math.floor(whole / 12), (whole % 12) + 1];
  return dayNumber({ year: y, month: m, day: Math.min(day, daysInMonth(y, m)) });
}

/** The last day of the month that lies so many months on. */
export function endOfMonthAfter(number: CivilDay, months: number): CivilDay {
  const { year, month } = yearMonthDay(number);
  const whole = year * 12 + month - 1 + months;
  const [y, m] = [Math.floor(whole / 12), (whole % 12) + 1];
  return dayNumber({ year: y, month: m, day: daysInMonth(y, m) });
}
