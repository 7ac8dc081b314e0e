import type { QueryClient } from '@tanstack/react-query';
import { onceMore } from './once-more.ts';

const ADDRESS = `/graphql/stream?query=${encodeURIComponent('subscription{changes{things}}')}`;

/** Asked anew by their own pages, or not moved by what others do: too dear to ask at every change. */
const STANDING = new Set([
  'deskCatalogue',
  'findParts',
  'findTasks',
  'floorChoices',
  'hours',
  'promises-kept',
  'quoteForecast',
]);

const TOGETHER_MS = 300;
const FIRST_PAUSE_MS = 2000;
const LONGEST_PAUSE_MS = 60_000;

/**
 * Asks anew for what the page shows when something in the shop changes, and whenever the stream of changes begins: what
 * happened while nobody listened is then seen too. A page in the background listens to nothing, since a browser opens
 * six connections to one address at the most; it asks anew when somebody looks at it again.
 *
 * @returns how to stop
 */
export function followShop(queries: QueryClient): () => void {
  let source: EventSource | null = null;
  let pause = FIRST_PAUSE_MS;
  let again: ReturnType<typeof setTimeout> | undefined;
  let soon: ReturnType<typeof setTimeout> | undefined;

  // A round that each change cut off and began anew would never end while a whole hangar clocks.
  const round = onceMore(() =>
    queries.invalidateQueries({
      predicate: ({ queryKey }) => !STANDING.has(String(queryKey[0])),
    }),
  );
  const askAnew = () => {
    soon ??= setTimeout(() => {
      soon = undefined;
      round();
    }, TOGETHER_MS);
  };
  const leave = () => {
    clearTimeout(again);
    source?.close();
    source = null;
  };
  const listen = () => {
    leave();
    if (document.hidden) return;
    const mine = new EventSource(ADDRESS);
    source = mine;
    const later = () => {
      if (source !== mine) return;
      leave();
      again = setTimeout(listen, pause);
      pause = Math.min(2 * pause, LONGEST_PAUSE_MS);
    };
    mine.addEventListener('open', () => {
      pause = FIRST_PAUSE_MS;
      askAnew();
    });
    mine.addEventListener('next', askAnew);
    // The shop's server goes away, or the session ended.
    mine.addEventListener('complete', later);
    mine.addEventListener('error', later);
  };

  listen();
  document.addEventListener('visibilitychange', listen);
  return () => {
    document.removeEventListener('visibilitychange', listen);
    clearTimeout(soon);
    leave();
  };
}
