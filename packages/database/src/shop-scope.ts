import type { Client, Tx } from './client.ts';

/** Whose eyes and hands a transaction has. */
export interface Scope {
  shopId: string;
  /** Who acts, for the audit. Null: the program itself. */
  personId: string | null;
  requestId: string;
}

const MAX_WAIT_MS = 4000;
const WRITE_MS = 15_000;
const READ_MS = 60_000;

/** One statement: the role, the shop, the actor and, for reads, the promise to write nothing. */
async function enter(tx: Tx, scope: Scope, readOnly: boolean): Promise<void> {
  await tx.$queryRaw`SELECT set_config('role', 'fairlead_shop', true),
    set_config('app.shop_id', ${scope.shopId}, true),
    set_config('app.person_id', ${scope.personId ?? ''}, true),
    set_config('app.request_id', ${scope.requestId}, true),
    set_config('transaction_read_only', ${readOnly ? 'on' : 'off'}, true)`;
}

/**
 * Runs `work` in one transaction that sees and touches one shop only, and commits it.
 * Keep it short: no file, no mail, no waiting for anything but the database.
 */
export function inShop<T>(
  client: Client,
  scope: Scope,
  work: (tx: Tx) => Promise<T>,
  { timeoutMs = WRITE_MS }: { timeoutMs?: number } = {},
): Promise<T> {
  return client.$transaction(
    async (tx) => {
      await enter(tx, scope, false);
      return work(tx);
    },
    { maxWait: MAX_WAIT_MS, timeout: timeoutMs },
  );
}

/** What an owner's private link reaches: one order, or one quote that is not an order yet. */
export interface LinkScope {
  shopId: string;
  orderId: string | null;
  quoteId: string | null;
  contactId: string;
}

/**
 * Runs `work` in one read-only transaction that sees what a private link reaches and nothing else.
 *
 * @param secretHash SHA-256 of the link's secret
 * @returns null, without having run `work`, where no link has this hash, or it has run out or was taken back
 */
export function inLink<T>(
  client: Client,
  secretHash: Uint8Array<ArrayBuffer>,
  work: (tx: Tx, link: LinkScope) => Promise<T>,
): Promise<T | null> {
  return client.$transaction(
    async (tx) => {
      await tx.$queryRaw`SELECT set_config('role', 'fairlead_link', true), set_config('transaction_read_only', 'on', true)`;
      const [link] = await tx.$queryRaw<
        LinkScope[]
      >`SELECT shop_id AS "shopId", order_id AS "orderId",
        quote_id AS "quoteId", contact_id AS "contactId" FROM resolve_link(${secretHash})`;
      return link ? work(tx, link) : null;
    },
    { maxWait: MAX_WAIT_MS, timeout: WRITE_MS },
  );
}

export interface LazyReader {
  /** Looks like a transaction's client; the transaction is opened by the first query. */
  reader: Tx;
  /** Ends the transaction, where one was opened, and gives its connection back. A later read opens a new one. */
  close(): Promise<void>;
}

/**
 * A read-only transaction that is opened when something is first read and stays open until `close`,
 * so that a request holds at most one connection and one that reads nothing holds none.
 */
export function lazyReader(client: Client, scope: () => Scope): LazyReader {
  let opened: Promise<Tx> | null = null;
  let finished: Promise<unknown> = Promise.resolve();
  let finish = () => {};

  const open = (): Promise<Tx> => {
    opened ??= new Promise<Tx>((ready, failed) => {
      const entered = scope();
      const untilClosed = new Promise<void>((resolve) => {
        finish = resolve;
      });
      finished = client
        .$transaction(
          async (tx) => {
            await enter(tx, entered, true);
            ready(tx);
            await untilClosed;
          },
          { maxWait: MAX_WAIT_MS, timeout: READ_MS },
        )
        .catch(failed);
    });
    return opened;
  };

  const model = (name: string) =>
    new Proxy(
      {},
      {
        get: (_, operation: string) => async (args: unknown) => {
          const tx = (await open()) as unknown as Record<
            string,
            Record<string, (args: unknown) => Promise<unknown>>
          >;
          return tx[name]?.[operation]?.(args);
        },
      },
    );
  const models = new Map<string, unknown>();
  const reader = new Proxy({} as Tx, {
    // The API builder asks whether a model is there before it reads it.
    has: (_, name) => typeof name === 'string' && !name.startsWith('$'),
    get: (_, name: string | symbol) => {
      if (typeof name !== 'string' || name === 'then') return undefined;
      if (name === '$queryRaw')
        return async (...args: Parameters<Tx['$queryRaw']>) => (await open()).$queryRaw(...args);
      if (name.startsWith('$'))
        throw new TypeError(`a reader has no ${name}: it reads models and $queryRaw`);
      if (!models.has(name)) models.set(name, model(name));
      return models.get(name);
    },
  });

  return {
    reader,
    async close() {
      const ended = finished;
      finish();
      opened = null;
      await ended;
    },
  };
}
