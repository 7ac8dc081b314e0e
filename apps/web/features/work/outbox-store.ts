import type { ClockInput, NoteFindingInput } from '../../graphql/generated/graphql.ts';

interface Common {
  /** The client's id: the server records it once, however often it is sent. */
  id: string;
  /** Whose it is: a shared device sends it only while this person is signed in. */
  personId: string;
  madeAt: number;
  /** What it is, for the line that says what is not sent. */
  words: string;
  /** The server's sentence, when it said no. */
  refused?: string;
}

/** A photo of a finding, on its own: the finding does not wait for it. */
export type PendingPhoto = Common & {
  kind: 'photo';
  /** The id that this device gave to the finding. */
  finding: string;
  photo: Blob;
  /** Bytes that the shop has, as far as this page knows; not kept. */
  sent?: number;
};

export type Pending =
  | (Common &
      (
        | { kind: 'clock'; input: ClockInput }
        | { kind: 'cautions'; itemId: string }
        | { kind: 'finding'; input: Omit<NoteFindingInput, 'photoIds'> }
      ))
  | PendingPhoto;

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
  work: (store: IDBObjectStore) => IDBRequest<T> | undefined,
): Promise<T | undefined> {
  const transaction = (await database()).transaction(STORE, mode);
  const asked = work(transaction.objectStore(STORE));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve(asked?.result);
    transaction.onabort = () => reject(transaction.error ?? new Error('Not kept.'));
    transaction.onerror = () => reject(transaction.error ?? new Error('Not kept.'));
  });
}

/** What the device keeps until the server has it; it survives a reload. */
export const outboxStore = {
  all: async () =>
    (await run<Pending[]>('readonly', (store) => store.getAll() as IDBRequest<Pending[]>)) ?? [],
  /** All of them, or none: a finding and its photos stay together. */
  put: (...entries: Pending[]) =>
    run('readwrite', (store) => entries.map((entry) => store.put(entry)).at(-1)),
  remove: (...ids: string[]) =>
    run('readwrite', (store) => ids.map((id) => store.delete(id)).at(-1)),
};
