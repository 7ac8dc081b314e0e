import type { KeptRows } from './kept-rows.ts';

const LONGEST_MS = 4000;

/**
 * One store of an IndexedDB database of its own. Every call rejects where the browser keeps nothing here, is full, or does
 * not answer within four seconds.
 *
 * @param key the field that a row is known by
 */
export function openStore<Row>(
  name: string,
  store: string,
  key: string & keyof Row,
): KeptRows<Row> {
  let opened: Promise<IDBDatabase> | null = null;
  const database = (): Promise<IDBDatabase> => {
    opened ??= new Promise<IDBDatabase>((resolve, reject) => {
      const asked = indexedDB.open(name, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore(store, { keyPath: key });
      asked.onsuccess = () => {
        // Somebody deletes it, at sign-out: what is open must not hold that up.
        asked.result.onversionchange = () => {
          asked.result.close();
          opened = null;
        };
        resolve(asked.result);
      };
      asked.onerror = () => reject(asked.error ?? new Error('The browser keeps no data here.'));
    });
    opened.catch(() => {
      opened = null;
    });
    return opened;
  };
  async function run<T>(
    mode: IDBTransactionMode,
    work: (rows: IDBObjectStore) => IDBRequest<T> | undefined,
  ): Promise<T | undefined> {
    const transaction = (await database()).transaction(store, mode);
    const asked = work(transaction.objectStore(store));
    return new Promise((resolve, reject) => {
      const failed = () => reject(transaction.error ?? new Error('Not kept.'));
      transaction.oncomplete = () => resolve(asked?.result);
      transaction.onabort = failed;
      transaction.onerror = failed;
    });
  }
  const soon = <T>(work: Promise<T>): Promise<T> =>
    Promise.race([
      work,
      new Promise<never>((_, reject) =>
        setTimeout(() => reject(new Error('The browser’s storage does not answer.')), LONGEST_MS),
      ),
    ]);
  return {
    all: async () =>
      (await soon(run<Row[]>('readonly', (rows) => rows.getAll() as IDBRequest<Row[]>))) ?? [],
    has: async (id: string) => (await soon(run('readonly', (rows) => rows.count(id)))) === 1,
    /** All of them, or none. */
    put: (...given: Row[]) =>
      soon(run('readwrite', (rows) => given.map((row) => rows.put(row)).at(-1))),
    remove: (...ids: string[]) =>
      soon(run('readwrite', (rows) => ids.map((id) => rows.delete(id)).at(-1))),
  };
}
