/**
 * Minutes that a zone is ahead of UTC at an instant.
 *
 * @example minutesAhead(new Date('2026-07-01T12:00:00Z'), 'Europe/Berlin') // → 120
 */
function minutesAhead(at: Date, timeZone: string): number {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    hourCycle: 'h23',
  });
  const read = new Map(format.formatToParts(at).map(({ type, value }) => [type, Number(value)]));
  const part = (name: Intl.DateTimeFormatPartTypes) => read.get(name) ?? 0;
  const wall = Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'));
  // The parts have no seconds, so the instant's must not count either: 40 of them would cost a minute.
  return Math.round((wall - Math.floor(at.getTime() / 60_000) * 60_000) / 60_000);
}

/**
 * The instant that a wall clock of the shop shows, as a field of the page holds it. An hour that
 * the change of clocks skips becomes the hour after it.
 *
 * @param wall `YYYY-MM-DDTHH:MM`, anything else throws RangeError
 * @param timeZone IANA name of the shop's zone
 * @example instantOf('2026-07-01T08:00', 'Europe/Berlin') // → '2026-07-01T06:00:00.000Z'
 */
export function instantOf(wall: string, timeZone: string): string {
  const asUtc = new Date(`${wall}:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(wall) || Number.isNaN(asUtc.getTime())) {
    throw new RangeError(`Cannot read a time: got "${wall}", need YYYY-MM-DDTHH:MM`);
  }
  const first = new Date(asUtc.getTime() - minutesAhead(asUtc, timeZone) * 60_000);
  return new Date(asUtc.getTime() - minutesAhead(first, timeZone) * 60_000).toISOString();
}

/**
 * An instant as the shop's wall clock shows it, for a field of the page.
 *
 * @example wallOf('2026-07-01T06:00:00.000Z', 'Europe/Berlin') // → '2026-07-01T08:00'
 */
export function wallOf(instant: string, timeZone: string): string {
  const at = new Date(instant);
  const wall = new Date(at.getTime() + minutesAhead(at, timeZone) * 60_000);
  return wall.toISOString().slice(0, 16);
}

/**
 * The calendar date that the shop has at an instant.
 *
 * @example dayOf('2026-07-01T23:30:00.000Z', 'Europe/Berlin') // → '2026-07-02'
 */
export function dayOf(instant: string, timeZone: string): string {
  return wallOf(instant, timeZone).slice(0, 10);
}

/**
 * Which day of a stay a moment is, by the shop's calendar, counting from 1.
 *
 * @example dayOfStay('2026-11-23T22:10:00Z', '2026-11-25T07:00:00Z', 'UTC') // → 3
 */
export function dayOfStay(from: string, at: string, timeZone: string): number {
  const day = (instant: string) => Date.parse(dayOf(instant, timeZone));
  return Math.round((day(at) - day(from)) / 86_400_000) + 1;
}
