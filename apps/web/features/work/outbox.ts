import { RequestProblem } from '../../graphql/request.ts';
import { outboxStore, type Pending } from './outbox-store.ts';
import { sendPending } from './send-pending.ts';

const AGAIN_AFTER_MS = 8000;

let pending: readonly Pending[] = [];
let failing = false;
let loaded = false;
let draining: Promise<void> | null = null;
let timer: ReturnType<typeof setTimeout> | undefined;
const listeners = new Set<() => void>();

interface Sender {
  personId: string;
  /** Waited for after each thing sent, so that the page shows it before it leaves the list. */
  onSent: () => Promise<unknown>;
}
let sender: Sender | null = null;

function set(next: readonly Pending[]): void {
  pending = next;
  for (const listener of listeners) listener();
}

/** A browser that keeps nothing still sends: the entry then lives as long as the page. */
const kept = (work: Promise<unknown>): Promise<unknown> => work.catch(() => undefined);

const change = async (entry: Pending): Promise<void> => {
  set(pending.map((each) => (each.id === entry.id ? entry : each)));
  await kept(outboxStore.put(entry));
};

const drop = async (id: string): Promise<void> => {
  set(pending.filter((each) => each.id !== id));
  await kept(outboxStore.remove(id));
};

/** One page at a time sends, where the browser can tell; elsewhere the server drops what comes twice. */
const alone = (work: () => Promise<void>): Promise<void> =>
  'locks' in navigator && navigator.locks !== undefined
    ? navigator.locks.request('fairlead-outbox', work)
    : work();

async function drain(): Promise<void> {
  clearTimeout(timer);
  const { personId, onSent } = sender ?? { personId: '', onSent: async () => undefined };
  const mine = () => pending.find((each) => each.personId === personId && !each.refused);
  for (let entry = mine(); entry !== undefined; entry = mine()) {
    try {
      await sendPending(entry, change);
      failing = false;
      await onSent().catch(() => undefined);
      await drop(entry.id);
    } catch (problem) {
      const said = problem instanceof RequestProblem ? problem : null;
      if (said?.kind === 'refused') {
        const newest = pending.find((each) => each.id === entry?.id) ?? entry;
        await change({ ...newest, refused: said.message });
        continue;
      }
      failing = true;
      set([...pending]);
      if (said?.kind !== 'signIn') timer = setTimeout(sendNow, AGAIN_AFTER_MS);
      return;
    }
  }
}

function sendNow(): void {
  if (sender === null || draining !== null) return;
  draining = alone(drain).finally(() => {
    draining = null;
    // Something may have come in between the last look and now.
    if (!failing && pending.some((each) => each.personId === sender?.personId && !each.refused)) {
      sendNow();
    }
  });
}

/** What waits on this device for the server: clock events, readings of cautions, findings with photos. */
export const outbox = {
  subscribe(listener: () => void): () => void {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  now: (): readonly Pending[] => pending,
  /** True after an attempt failed for want of a network or a server. */
  failing: (): boolean => failing,
  /** Begins to send what this person left on this device, now and whenever the network comes back. */
  open(next: Sender): () => void {
    sender = next;
    if (!loaded) {
      loaded = true;
      void outboxStore
        .all()
        .catch((): Pending[] => [])
        .then((found) => {
          const known = new Set(pending.map(({ id }) => id));
          const all = [...found.filter(({ id }) => !known.has(id)), ...pending];
          set(all.sort((one, other) => one.madeAt - other.madeAt));
          sendNow();
        });
    } else sendNow();
    window.addEventListener('online', sendNow);
    return () => window.removeEventListener('online', sendNow);
  },
  async add(entry: Pending): Promise<void> {
    set([...pending, entry]);
    await kept(outboxStore.put(entry));
    sendNow();
  },
  /** Resolves when everything is sent, or the attempt failed. */
  async settle(): Promise<boolean> {
    sendNow();
    while (draining !== null) await draining;
    return !failing;
  },
  tryAgain(entry?: Pending): void {
    if (entry === undefined) sendNow();
    else {
      const { refused: _, ...again } = entry;
      void change(again).then(sendNow);
    }
  },
  discard: (entry: Pending): void => void drop(entry.id),
};
