import { counts, type Pending, shopTimeOf } from './pending.ts';

export interface Running {
  itemId: string;
  /** ISO 8601, by the shop's clock. */
  startedAt: string;
}

/**
 * What runs now, by what the server knew last and what has not reached it yet.
 *
 * @param pending in the order in which it was noted
 * @example runningNow({ itemId: 'a', startedAt: '2031-05-04T08:00:00Z' }, []) // → { itemId: 'a', startedAt: '2031-05-04T08:00:00Z' }
 */
export function runningNow(server: Running | null, pending: readonly Pending[]): Running | null {
  let running = server;
  for (const entry of pending) {
    if (!counts(entry)) continue;
    if (entry.kind === 'answer' && entry.input.stoppedAt != null) {
      const { itemId, startedAt } = entry.of;
      if (running?.itemId === itemId && running.startedAt === startedAt) running = null;
    }
    if (entry.kind !== 'clock') continue;
    const { kind, itemId } = entry.input;
    const at = shopTimeOf(entry);
    // The server may have it already, and more since.
    if (server !== null && at < Date.parse(server.startedAt)) continue;
    if (kind === 'stop') running = null;
    else if (itemId && running?.itemId !== itemId) {
      running = { itemId: String(itemId), startedAt: new Date(at).toISOString() };
    }
  }
  return running;
}
