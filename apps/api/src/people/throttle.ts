/** Counts attempts by key over a time, in this process's memory. */
export type Throttle = {
  /** Counts one attempt. Returns 0 when it may go on, else the seconds to wait. */
  attempt(key: string): number;
  /** Forgets the attempts of a key, after one that succeeded. */
  forgive(key: string): void;
};

/**
 * Limits attempts: at most `limit` for a key within `windowMs` milliseconds of its first, then none until that time is
 * over. Known and unknown keys are treated alike, so the limit tells nothing about who has an account.
 *
 * @param now the clock, in milliseconds
 */
export function createThrottle(
  limit: number,
  windowMs: number,
  now: () => number = Date.now,
): Throttle {
  const seen = new Map<string, { count: number; until: number }>();
  const maximumKeys = 10_000;
  return {
    attempt(key) {
      const time = now();
      const known = seen.get(key);
      if (known && known.until > time) {
        known.count += 1;
        return known.count > limit ? Math.ceil((known.until - time) / 1000) : 0;
      }
      if (seen.size >= maximumKeys) {
        for (const [old, { until }] of seen) if (until <= time) seen.delete(old);
        // Still full: somebody tries thousands of names. The oldest entry goes, so memory stays bounded.
        const oldest = seen.keys().next();
        if (seen.size >= maximumKeys && !oldest.done) seen.delete(oldest.value);
      }
      seen.delete(key);
      seen.set(key, { count: 1, until: time + windowMs });
      return 0;
    },
    forgive(key) {
      seen.delete(key);
    },
  };
}
