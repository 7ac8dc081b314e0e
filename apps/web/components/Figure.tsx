import { calendarDateText, dayAndTimeText, dayText, type Instant } from '../lib/figures/dates.ts';
import { hoursText } from '../lib/figures/hours.ts';
import { moneyText } from '../lib/figures/money.ts';
import styles from './Figure.module.css';

/**
 * Any figure in mono. `places` pads the fraction invisibly to that many decimals, so that `2`,
 * `0.25` and `12.5` of one right-aligned column stand on the decimal.
 */
export function Figure({ text, unit, places }: { text: string; unit?: string; places?: number }) {
  const fraction = text.split('.')[1];
  const missing = (places ?? 0) - (fraction?.length ?? 0);
  const filler = missing > 0 ? `${fraction === undefined ? '.' : ''}${'0'.repeat(missing)}` : '';
  return (
    <span className={styles.figure}>
      {text}
      {filler === '' ? null : (
        <span className={styles.filler} aria-hidden="true">
          {filler}
        </span>
      )}
      {unit === undefined ? null : <span className={styles.unit}> {unit}</span>}
    </span>
  );
}

/** Labour-hours in tenths. */
export function Hours({ value, places = 1 }: { value: number; places?: number }) {
  return <Figure text={hoursText(value, places)} unit="h" />;
}

/** An exact amount; the currency is written once, at the head of the column or at the total. */
export function Money({
  minor,
  currency,
  showCurrency = false,
}: {
  minor: bigint;
  currency: string;
  showCurrency?: boolean;
}) {
  const text = moneyText(minor, currency);
  return showCurrency ? <Figure text={text} unit={currency} /> : <Figure text={text} />;
}

/** An instant as the shop's day, or its day and time. */
export function Day({
  at,
  timeZone,
  time = false,
}: {
  at: Instant;
  timeZone: string;
  time?: boolean;
}) {
  const text = time ? dayAndTimeText(at, timeZone) : dayText(at, timeZone);
  return (
    <time className={styles.figure} dateTime={at instanceof Date ? at.toISOString() : at}>
      {text}
    </time>
  );
}

/** A calendar date without a time zone, such as a due date. */
export function CalendarDate({ date }: { date: string }) {
  return (
    <time className={styles.figure} dateTime={date}>
      {calendarDateText(date)}
    </time>
  );
}
