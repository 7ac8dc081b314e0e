import type { DueLine } from './programme-documents.ts';

const DAY = 86_400_000;

/**
 * The share of its interval that something has run, from the last time it was done to when it is due: 0 just done, 1 due, more
 * when past it; of days and hours the one that is further. Null where nobody said when it was done last. A part's hours are its
 * own and the aircraft's do not tell how far they ran, so that of a part only the days count.
 *
 * @example runOf({ part: null, lastOn: '2026-01-01', dueOn: '2026-01-11', remainingDays: 4 }) // → 0.6
 */
export function runOf(
  line: Pick<DueLine, 'part' | 'lastOn' | 'dueOn' | 'remainingDays'> &
    Pick<DueLine, 'lastAtHundredths' | 'dueAtHundredths' | 'remainingHundredths'>,
): number | null {
  const { part, lastOn, dueOn, remainingDays, lastAtHundredths } = line;
  const shares = [
    lastOn == null || dueOn == null
      ? null
      : shareOf((Date.parse(dueOn) - Date.parse(lastOn)) / DAY, remainingDays),
    part != null || lastAtHundredths == null || line.dueAtHundredths == null
      ? null
      : shareOf(line.dueAtHundredths - lastAtHundredths, line.remainingHundredths),
  ].filter((share) => share !== null);
  return shares.length === 0 ? null : Math.max(...shares);
}

const shareOf = (interval: number, left: number | null | undefined): number | null =>
  left == null || interval <= 0 ? null : Math.max(0, 1 - left / interval);
