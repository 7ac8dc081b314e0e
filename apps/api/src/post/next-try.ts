const MINUTE = 60_000;

/** Pauses after the first tries, in minutes; from then on the last. */
const pauses = [1, 5, 15, 30, 60, 120, 240] as const;

/** For so long a mail is tried: RFC 5321, 4.5.4.1, asks for 4 to 5 days before giving up. */
export const TRIED_FOR_MS = 5 * 24 * 60 * MINUTE;

/**
 * When a mail is tried next after a try that failed for now. The pauses grow from one minute to four hours: the server asked is the
 * shop's own, which is away for minutes or, at worst, for days; RFC 5321's half hour is for servers of strangers.
 *
 * @param tries so many tries failed, 1 or more, since the mail was asked for (or asked for again)
 * @param since when that was
 * @returns null when it is given up
 * @throws RangeError where no try was made
 * @example nextTry(1, new Date('2031-05-04T08:00:00Z'), new Date('2031-05-04T08:00:10Z')) // → new Date('2031-05-04T08:01:10Z')
 */
export function nextTry(tries: number, since: Date, now: Date): Date | null {
  if (!Number.isInteger(tries) || tries < 1)
    throw new RangeError(`After ${tries} tries there is no next: needed is 1 or more`);
  const minutes = pauses[Math.min(tries, pauses.length) - 1] ?? pauses[0];
  const next = new Date(now.getTime() + minutes * MINUTE);
  return next.getTime() - since.getTime() > TRIED_FOR_MS ? null : next;
}
