/** What this device knows of the shop's clock. */
export interface ShopClock {
  /** What has to be added to this device's clock to have the shop's, milliseconds. */
  offsetMs: number;
  /** The shop's time at its last answer, milliseconds since 1970; 0: none yet. */
  heard: number;
}

/** A better measurement than this is not worth having: two events a moment apart must not change places by it. */
const STEADY_MS = 2000;

/**
 * What is known after one more answer. The answer is taken to have been on its way for half of the round trip; a
 * difference that the round trip explains, and two seconds besides, changes nothing.
 *
 * @param answer `shop`: the time it says; `asked`, `heard`: this device's clock before and after; all milliseconds
 * @example afterAnswer({ offsetMs: 0, heard: 0 }, { shop: 86_400_000, asked: 100, heard: 300 }) // → { offsetMs: 86_399_800, heard: 86_400_100 }
 */
export function afterAnswer(
  known: ShopClock,
  { shop, asked, heard }: { shop: number; asked: number; heard: number },
): ShopClock {
  const half = Math.max(0, heard - asked) / 2;
  const measured = Math.round(shop + half - heard);
  const steady = known.heard > 0 && Math.abs(measured - known.offsetMs) <= half + STEADY_MS;
  return { offsetMs: steady ? known.offsetMs : measured, heard: Math.round(shop + half) };
}

const FRESH_MS = 60_000;

/**
 * Whether the shop was heard within the last minute, by a clock that has not been set since.
 *
 * @param deviceNow this device's clock, milliseconds since 1970
 * @example isFresh({ offsetMs: 500, heard: 10_000 }, 9_700) // → true
 */
export const isFresh = ({ offsetMs, heard }: ShopClock, deviceNow: number): boolean =>
  heard > 0 && Math.abs(deviceNow + offsetMs - heard) <= FRESH_MS;

/** What was known of the shop's clock when something was noted on this device. */
export interface NotedAt {
  /** This device's clock, milliseconds since 1970. */
  at: number;
  offsetMs: number;
  heard: number;
}

/**
 * What to add to the time that something was noted at, now that it is sent: what was known then; or, where that would put
 * it before the last answer heard by then or after now, because the device's clock was set meanwhile, what is known now;
 * or else as much as puts it between the two.
 *
 * @param now the shop's clock and what is known of it, at sending
 * @example offsetAtSending({ at: 1000, offsetMs: 500, heard: 1200 }, { shop: 9000, offsetMs: 700 }) // → 500
 */
export function offsetAtSending(
  { at, offsetMs, heard }: NotedAt,
  now: { shop: number; offsetMs: number },
): number {
  const fits = (offset: number) =>
    at + offset >= heard - STEADY_MS && at + offset <= now.shop + STEADY_MS;
  if (fits(offsetMs)) return offsetMs;
  if (fits(now.offsetMs)) return now.offsetMs;
  return Math.min(Math.max(at + offsetMs, heard), now.shop) - at;
}
