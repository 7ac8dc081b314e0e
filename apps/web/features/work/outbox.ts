import { RequestProblem } from '../../graphql/request.ts';
import { outboxStore, type Pending } from './outbox-store.ts';
import { sendPending } from './send-pending.ts';

const AGAIN_AFTER_MS = 8000;

let pending: readonly Pending[] = [];
let failing = false;
let trouble: string | null = null;
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

const replace = (entry: Pending): void =>
  set(pending.map((each) => (each.id === entry.id ? entry : each)));

const change = async (entry: Pending): Promise<void> => {
  replace(entry);
  await kept(outboxStore.put(entry));
};

const drop = async (...ids: string[]): Promise<void> => {
  set(pending.filter((each) => !ids.includes(each.id)));
  await kept(outboxStore.remove(...ids));
};

/** One page at a time sends, where the browser can tell; elsewhere the server drops what comes twice. */
const alone = <T>(name: string, work: () => Promise<T>): Promise<T> =>
  'locks' in navigator && navigator.locks !== undefined
    ? navigator.locks.request(name, work)
    : work();

/** The next thing to send: photos last and piece by piece, so that a clock never waits for them; none before its finding. */
function next(): Pending | undefined {
  const mine = pending.filter((each) => each.personId === sender?.personId && !each.refused);
  return (
    mine.find(({ kind }) => kind !== 'photo') ??
    mine.find((each) => each.kind === 'photo' && !pending.some(({ id }) => id === each.finding))
  );
}

async function drain(): Promise<void> {
  clearTimeout(timer);
  for (let entry = next(); entry !== undefined; entry = next()) {
    const sending = entry;
    try {
      const lock = sending.kind === 'photo' ? 'fairlead-photos' : 'fairlead-outbox';
      const sent = await alone(lock, () => sendPending(sending));
      failing = false;
      if (sent !== null && sending.kind === 'photo') {
        replace({ ...sending, sent });
        continue;
      }
      await sender?.onSent().catch(() => undefined);
      await drop(sending.id);
    } catch (problem) {
      const said = problem instanceof RequestProblem ? problem : null;
      if (said?.kind === 'refused') {
        const newest = pending.find((each) => each.id === sending.id) ?? sending;
        await change({ ...newest, refused: said.message });
        continue;
      }
      failing = true;
      trouble = said === null || said.code === 'NETWORK' ? null : said.message;
      set([...pending]);
      if (said?.kind !== 'signIn') timer = setTimeout(sendNow, AGAIN_AFTER_MS);
      return;
    }
  }
}

function sendNow(): void {
  if (sender === null || draining !== null) return;
  draining = drain().finally(() => {
    draining = null;
    // Something may have come in between the last look and now.
    if (!failing && next() !== undefined) sendNow();
    else set(pending);
  });
}

/** What waits on this device for the server: clock events, readings of cautions, findings, photos. */
export const outbox = {
  subscribe(listener: () => void): () => void {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  now: (): readonly Pending[] => pending,
  /** True after an attempt failed for want of a network or a server. */
  failing: (): boolean => failing,
  /** What the server said when it took nothing just now; null where it could not be reached at all. */
  trouble: (): string | null => trouble,
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
  async add(...entries: Pending[]): Promise<void> {
    set([...pending, ...entries]);
    await kept(outboxStore.put(...entries));
    sendNow();
  },
  /** Resolves when everything but photos is sent, or the attempt failed. */
  async settle(): Promise<boolean> {
    sendNow();
    const waits = () =>
      pending.some(
        (each) => each.kind !== 'photo' && each.personId === sender?.personId && !each.refused,
      );
    await new Promise<void>((resolve) => {
      const look = () => {
        if (draining !== null && waits()) return;
        stop();
        resolve();
      };
      const stop = outbox.subscribe(look);
      look();
    });
    return !waits();
  },
  tryAgain(entry?: Pending): void {
    if (entry === undefined) sendNow();
    else {
      const { refused: _, ...again } = entry;
      void change(again).then(sendNow);
    }
  },
  /** A finding takes its photos along: they have nothing to join. */
  discard(entry: Pending): void {
    const along = pending.filter((each) => each.kind === 'photo' && each.finding === entry.id);
    void drop(entry.id, ...along.map(({ id }) => id));
  },
};
