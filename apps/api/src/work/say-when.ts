/**
 * An instant as the shop's people say it, for sentences.
 *
 * @param timeZone IANA name of the shop's zone
 * @example sayWhen(new Date('2031-05-04T08:30:00Z'), 'UTC') // → 'at 08:30 on 4 May 2031'
 */
export function sayWhen(instant: Date, timeZone: string): string {
  const parts = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).formatToParts(instant);
  const part = (wanted: string) => parts.find(({ type }) => type === wanted)?.value ?? '';
  return `at ${part('hour')}:${part('minute')} on ${part('day')} ${part('month')} ${part('year')}`;
}
