const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** What a date is read from: an ISO text with its offset, or an instant. */
export type Instant = string | Date;

interface Parts {
  day: number;
  month: string;
  year: number;
  hour: string;
  minute: string;
}

/** Month names are our own: the server's and the browser's tables differ ("Sep", "Sept"). */
function partsOf(instant: Instant, timeZone: string): Parts {
  const date = instant instanceof Date ? instant : new Date(instant);
  if (Number.isNaN(date.getTime())) {
    throw new RangeError(`Cannot write a date: got "${String(instant)}", need an ISO 8601 instant`);
  }
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    day: 'numeric',
    month: 'numeric',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  const read = new Map(format.formatToParts(date).map((part) => [part.type, part.value]));
  return {
    day: Number(read.get('day')),
    month: months[Number(read.get('month')) - 1] ?? '',
    year: Number(read.get('year')),
    hour: read.get('hour') ?? '',
    minute: read.get('minute') ?? '',
  };
}

/**
 * A day in the shop's time zone.
 *
 * @param timeZone IANA name; the shop's own, so that a late evening keeps its date on every phone
 * @throws RangeError for an unreadable instant or an unknown zone
 * @example dayText('2026-03-14T23:30:00Z', 'UTC') // → '14 Mar 2026'
 */
export function dayText(instant: Instant, timeZone: string): string {
  const { day, month, year } = partsOf(instant, timeZone);
  return `${day} ${month} ${year}`;
}

/**
 * A day and time in the shop's time zone.
 *
 * @example dayAndTimeText('2026-03-14T09:05:00Z', 'UTC') // → '14 Mar 2026, 09:05'
 */
export function dayAndTimeText(instant: Instant, timeZone: string): string {
  const { hour, minute } = partsOf(instant, timeZone);
  return `${dayText(instant, timeZone)}, ${hour}:${minute}`;
}

/**
 * A calendar date that belongs to no time zone, such as a due date.
 *
 * @param date `YYYY-MM-DD`; anything else throws RangeError
 * @example calendarDateText('2026-03-31') // → '31 Mar 2026'
 */
export function calendarDateText(date: string): string {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) {
    throw new RangeError(`Cannot write a calendar date: got "${date}", need YYYY-MM-DD`);
  }
  return dayText(`${date}T12:00:00Z`, 'UTC');
}
