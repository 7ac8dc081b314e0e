import { shopClock } from '../../lib/shop-clock.ts';
import { createOutbox } from './outbox-core.ts';
import { outboxStore } from './outbox-store.ts';
import { sendPending } from './send-pending.ts';

const AGAIN_AFTER_MS = 8000;

/** Pages of this device tell each other that the store has changed; an old browser finds out when it sends. */
const pages =
  typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('fairlead-outbox');

/** What waits on this device for the server: clock events, readings of cautions, findings, photos, what is said of items. */
export const outbox = createOutbox({
  store: outboxStore,
  send: sendPending,
  // One page at a time sends, where the browser can tell; elsewhere the server drops what comes twice.
  alone: (name, work) =>
    typeof navigator !== 'undefined' && 'locks' in navigator && navigator.locks !== undefined
      ? navigator.locks.request(name, work)
      : work(),
  clock: shopClock.known,
  announce: () => pages?.postMessage(null),
  againAfterMs: AGAIN_AFTER_MS,
});

if (pages) pages.onmessage = () => void outbox.changedElsewhere();
if (typeof window !== 'undefined') {
  window.addEventListener('online', () => outbox.sendNow());
  // A telephone in a pocket stops its timers.
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') outbox.sendNow();
  });
}
