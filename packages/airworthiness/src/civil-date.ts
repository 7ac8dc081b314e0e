import { Temporal } from 'temporal-polyfill';

/** A day of the calendar as ISO 8601 text, "2026-03-14": never an instant, so no time zone moves it. */
export type CivilDate = string;

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** Whether a text is a day that exists. */
export function isCivilDate(text: string): text is CivilDate {
  if (!DAY.test(text)) {
    return false;
  }
  try {
    return Temporal.PlainDate.from(text, { overflow: 'reject' }).toString() === text;
  } catch {
    return false;
  }
}

/**
 * The calendar day for a text.
 *
 * @throws RangeError when it is no day that exists, such as 2025-02-29.
 */
export function civilDate(text: string, what = 'date'): Temporal.PlainDate {
  if (!isCivilDate(text)) {
    throw new RangeError(
      `Cannot use ${JSON.stringify(text)} as ${what}: give a day that exists, such as "2026-03-14"`,
    );
  }
  return Temporal.PlainDate.from(text);
}
