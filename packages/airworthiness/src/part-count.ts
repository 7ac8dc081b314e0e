/** A stay of a part on an aircraft, by one of the aircraft's counts. */
export interface CountedStay {
  readonly aircraftId: string;
  /** Null: the aircraft was not counted then. */
  readonly fittedAt: number | null;
  readonly removedAt: number | null;
  readonly removed: boolean;
}

/** A part's own cycles, landings or starts: when it was first recorded, and where it ran since, in order. */
export interface CountHistory {
  /** Null: its papers do not say. */
  readonly recorded: number | null;
  readonly stays: readonly CountedStay[];
}

/**
 * A part's own count, as `partTimeNow` tells its hours: what it had when it was first recorded, and what each aircraft
 * counted while it was fitted.
 *
 * Formula: recorded + Σ (aircraft at removal, or now − aircraft at fitting).
 *
 * @param aircraftNow count of the aircraft that it is fitted to now; null: it was never counted
 * @returns null where any of it is unknown, or the aircraft stands below the fitting
 * @example partCountNow({ recorded: 150, stays: [{ aircraftId: 'a', fittedAt: 1240, removedAt: 1300, removed: true }, { aircraftId: 'b', fittedAt: 500, removedAt: null, removed: false }] }, 512) // → 222
 */
export function partCountNow(
  { recorded, stays }: CountHistory,
  aircraftNow: number | null,
): number | null {
  let count = recorded;
  for (const { fittedAt, removedAt, removed } of stays) {
    const until = removed ? removedAt : aircraftNow;
    if (count === null || fittedAt === null || until === null || until < fittedAt) return null;
    count += until - fittedAt;
  }
  return count;
}

/**
 * A part's own count when an aircraft had so many; before it was fitted there, what it would have had.
 *
 * @returns null where it never was on that aircraft, or any of it is unknown
 * @example partCountAt({ recorded: 200, stays: [{ aircraftId: 'a', fittedAt: 1000, removedAt: null, removed: false }] }, 'a', 1280) // → 480
 */
export function partCountAt(
  { recorded, stays }: CountHistory,
  aircraftId: string,
  aircraftAt: number,
): number | null {
  let before = recorded;
  let answer: number | null = null;
  for (const { aircraftId: on, fittedAt, removedAt, removed } of stays) {
    if (before === null || fittedAt === null) break;
    // Of several stays on one aircraft, the last that had begun by then; of none, the first.
    if (on === aircraftId && (answer === null || fittedAt <= aircraftAt))
      answer = before + aircraftAt - fittedAt;
    if (!removed || removedAt === null) break;
    before += removedAt - fittedAt;
  }
  return answer === null || answer < 0 ? null : answer;
}
