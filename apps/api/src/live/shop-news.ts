import { hearChanges } from '@fairlead/database/hear-changes';

/** Changes that come within this time are told together. */
const TOGETHER_MS = 150;

/** The tables of what changed; none: anything may have changed. */
export type News = ReadonlySet<string>;

const ANYTHING: News = new Set();

type Reader = { readonly shopId: string; tell(news: News): void; end(): void };

/**
 * What changes in the shops, for those who watch. One connection listens for all of them, from the first watcher on.
 */
export function createShopNews(url: string) {
  const readers = new Set<Reader>();
  const changed = new Map<string, Set<string>>();
  let hearing: ReturnType<typeof hearChanges> | undefined;
  let timer: NodeJS.Timeout | undefined;

  const tellAll = () => {
    timer = undefined;
    const told = new Map(changed);
    changed.clear();
    for (const { shopId, tell } of readers) {
      const tables = told.get(shopId);
      if (tables) tell(tables);
    }
  };

  const hear = () => {
    hearing ??= hearChanges({
      url,
      onChange: ({ shopId, table }) => {
        changed.set(shopId, (changed.get(shopId) ?? new Set()).add(table));
        timer ??= setTimeout(tellAll, TOGETHER_MS);
      },
      onGap: () => {
        for (const { tell } of readers) tell(ANYTHING);
      },
    });
    return hearing.ready;
  };

  return {
    /** News of one shop from now on, until the reader leaves or the server stops. Resolves once none is missed. */
    async of(shopId: string): Promise<AsyncIterableIterator<News>> {
      const { reader, news } = newsFor(shopId, () => readers.delete(reader));
      readers.add(reader);
      await hear();
      return news;
    },

    /** Ends every stream, so that a server can stop. */
    endAll(): void {
      for (const { end } of readers) end();
    },

    async close(): Promise<void> {
      clearTimeout(timer);
      for (const { end } of readers) end();
      await hearing?.close();
    },
  };
}

export type ShopNews = ReturnType<typeof createShopNews>;

/**
 * One reader's news. Slow readers get one piece that stands for all they missed. By hand and no generator: a generator
 * that waits for news cannot be left.
 */
function newsFor(shopId: string, onEnd: () => void) {
  let waiting: News | undefined;
  let ended = false;
  let wake = () => {};
  const end = () => {
    ended = true;
    onEnd();
    wake();
  };
  const reader: Reader = {
    shopId,
    tell(news) {
      const either = news.size === 0 || waiting?.size === 0;
      waiting = either ? ANYTHING : new Set([...(waiting ?? []), ...news]);
      wake();
    },
    end,
  };
  const news: AsyncIterableIterator<News> = {
    [Symbol.asyncIterator]: () => news,
    async next() {
      while (waiting === undefined && !ended) {
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
      }
      if (ended || waiting === undefined) return { done: true, value: undefined };
      const value = waiting;
      waiting = undefined;
      return { done: false, value };
    },
    async return() {
      end();
      return { done: true, value: undefined };
    },
  };
  return { reader, news };
}
