import pg from 'pg';

const AGAIN_AFTER_MS = 1000;

/** What was committed somewhere: in which shop, and to which table. */
export type Change = { shopId: string; table: string };

export type HearOptions = {
  /** The database, as the application's account. */
  url: string;
  onChange: (change: Change) => void;
  /** After the connection was lost and is there again: anything may have changed in between. */
  onGap: () => void;
};

/**
 * Listens to what the shops' transactions tell when they commit (the migration `live`), on a connection of its own. A
 * connection that breaks is made anew until `close`.
 *
 * @returns how to stop; and `ready`, which resolves once nothing committed from now on is missed
 */
export function hearChanges({ url, onChange, onGap }: HearOptions) {
  let client: pg.Client | null = null;
  let timer: NodeJS.Timeout | undefined;
  let closed = false;
  let heardBefore = false;
  let isReady = () => {};
  const ready = new Promise<void>((resolve) => {
    isReady = resolve;
  });

  async function connect(): Promise<void> {
    const mine = new pg.Client({ connectionString: url, keepAlive: true });
    client = mine;
    const lost = () => {
      if (client !== mine) return;
      client = null;
      mine.end().catch(() => undefined);
      if (!closed) timer = setTimeout(() => void connect(), AGAIN_AFTER_MS);
    };
    mine.on('error', lost);
    mine.on('end', lost);
    mine.on('notification', ({ payload = '' }) => {
      const [shopId, table] = payload.split(' ');
      if (shopId !== undefined && table !== undefined) onChange({ shopId, table });
    });
    try {
      await mine.connect();
      await mine.query('listen fairlead');
    } catch {
      lost();
      return;
    }
    if (heardBefore) onGap();
    heardBefore = true;
    isReady();
  }

  void connect();
  return {
    ready,
    async close(): Promise<void> {
      closed = true;
      clearTimeout(timer);
      isReady();
      const last = client;
      client = null;
      await last?.end().catch(() => undefined);
    },
  };
}
