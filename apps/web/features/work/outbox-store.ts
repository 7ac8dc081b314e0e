import type { ClockInput, NoteFindingInput } from '../../graphql/generated/graphql.ts';

interface Common {
  /** The client's event id: the server records it once, however often it is sent. */
  id: string;
  /** Whose it is: a shared device sends it only while this person is signed in. */
  personId: string;
  madeAt: number;
  /** What it is, for the line that says what is not sent. */
  words: string;
  /** The server's sentence, when it said no. */
  refused?: string;
}

export type Pending = Common &
  (
    | { kind: 'clock'; input: ClockInput }
    | { kind: 'cautions'; itemId: string }
    | {
        kind: 'finding';
        input: Omit<NoteFindingInput, 'photoIds'>;
        photos: Blob[];
        /** Of the photos that have arrived, in order. */
        photoIds: string[];
      }
  );

const STORE = 'outbox';
let opened: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open('fairlead', 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: 'id' });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error ?? new Error('The browser keeps no data here.'));
  });
  return opened;
}

async function run<T>(
  mode: IDBTransactionMode,
  work: (store: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  const transaction = (await database()).transaction(STORE, mode);
  const asked = work(transaction.objectStore(STORE));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(asked.result);
    transaction.onabort = () => reject(transaction.error ?? new Error('Not kept.'));
    transaction.onerror = () => reject(transaction.error ?? new Error('Not kept.'));
  });
}

/** What the device keeps until the server has it; it survives a reload. */
export const outboxStore = {
  all: () => run<Pending[]>('readonly', (store) => store.getAll() as IDBRequest<Pending[]>),
  put: (entry: Pending) => run('readwrite', (store) => store.put(entry)),
  remove: (id: string) => run('readwrite', (store) => store.delete(id)),
};
