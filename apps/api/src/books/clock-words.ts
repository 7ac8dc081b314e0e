const MINUTE = 60_000;

/**
 * A time as it was clocked, on the shop's own clock; one that goes on, or is a moment, by its beginning.
 *
 * @param timeZone IANA name of the shop's zone
 * @example clockWords({ startedAt: new Date('2031-05-04T08:05:00Z'), endedAt: new Date('2031-05-04T09:45:00Z') }, 'UTC') // → '4 May 2031, 08:05 to 09:45, 1 h 40 min'
 */
export function clockWords(
  { startedAt, endedAt }: { startedAt: Date; endedAt: Date | null },
  timeZone: string,
): string {
  const day = new Intl.DateTimeFormat('en-GB', { timeZone, dateStyle: 'medium' }).format(startedAt);
  const time = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  });
  if (endedAt === null) return `${day}, ${time.format(startedAt)}`;
  const minutes = Math.round((+endedAt - +startedAt) / MINUTE);
  const hours = Math.floor(minutes / 60);
  const long = hours === 0 ? `${minutes} min` : `${hours} h ${minutes % 60} min`;
  return `${day}, ${time.format(startedAt)} to ${time.format(endedAt)}, ${long}`;
}
