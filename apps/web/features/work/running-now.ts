import type { Pending } from './outbox-store.ts';

export interface Running {
  itemId: string;
  /** ISO 8601. */
  startedAt: string;
}

/**
 * What runs now, by what the server knew last and what has not reached it yet.
 *
 * @example runningNow({ itemId: 'a', startedAt: '2031-05-04T08:00:00Z' }, []) // → { itemId: 'a', startedAt: '2031-05-04T08:00:00Z' }
 */
export function runningNow(server: Running | null, pending: readonly Pending[]): Running | null {
  let running = server;
  const clocked = pending
    .flatMap((entry) => (entry.kind === 'clock' && !entry.refused ? [entry.input] : []))
    .sort((one, other) => Date.parse(String(one.at)) - Date.parse(String(other.at)));
  for (const { kind, itemId, at } of clocked) {
    // The server may have it already, and more since.
    if (server !== null && Date.parse(String(at)) < Date.parse(server.startedAt)) continue;
    if (kind === 'stop') running = null;
    else if (itemId && running?.itemId !== itemId) {
      running = { itemId: String(itemId), startedAt: String(at) };
    }
  }
  return running;
}
