import type { ClockInput } from '../../graphql/generated/graphql.ts';
import type { Pending, PendingClock } from './pending.ts';

/** Farther apart than this, the times say more than the order. */
const NEARLY_MS = 5000;

/**
 * Clock events as they go out, each after the one before it, also where the device's clock was set between them.
 *
 * @param entries in the order in which they were noted
 * @param device which device it is, and what it has to add to its clock for something noted before
 */
export function clocksAsSent(
  entries: readonly PendingClock[],
  device: (entry: Pending) => { id: string; clockOffsetMs: number },
): ClockInput[] {
  let last = Number.NEGATIVE_INFINITY;
  return entries.map((entry) => {
    const { id, clockOffsetMs } = device(entry);
    const at = entry.madeAt + clockOffsetMs;
    const after = at <= last && last - at < NEARLY_MS ? last + 1 - at : 0;
    last = at + after;
    return { ...entry.input, device: { id, clockOffsetMs: clockOffsetMs + after } };
  });
}
