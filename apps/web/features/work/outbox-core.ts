import type { PhotoMarkInput } from '../../graphql/generated/graphql.ts';
import type { RequestProblem } from '../../graphql/request-problem.ts';
import type { NotedAt } from '../../lib/clock-offset.ts';
import type { KeptRows } from '../../lib/kept-rows.ts';
import { createKeeping } from './keeping.ts';
import { type MarkedPhoto, type Pending, type PendingPhoto, waits } from './pending.ts';
import { afterReading, inOrder, nextPhoto, nextToSend } from './pending-list.ts';

/** What became of one thing that was sent. */
export interface Outcome {
  /** The server's sentence, when it said no. */
  refused?: string;
  /** Its sentence, when it took it and there is something to know. */
  told?: string;
  /** Of a photo that is not through: bytes that the shop has. */
  sent?: number;
  /** Of a photo of which nothing else was sent yet: what became of its preview. */
  preview?: 'sent' | 'none';
}

/** What an outbox is made of; a test brings its own. */
export interface OutboxParts {
  store: KeptRows<Pending>;
  /** Sends some things; rejects with a RequestProblem where the server could not be asked. */
  send(entries: readonly Pending[]): Promise<Outcome[]>;
  /** Runs while no other page of this device runs under that name. */
  alone<T>(name: string, work: () => Promise<T>): Promise<T>;
  /** What is known of the shop's clock. */
  clock(): Pick<NotedAt, 'offsetMs' | 'heard'>;
  /** Tells the other pages of this device that the store has changed. */
  announce(): void;
  againAfterMs: number;
}

export interface Sender {
  personId: string;
  /** Waited for when things were taken, so that the page shows what follows before they leave the list. Rejects: try later. */
  onTaken: (taken: readonly Pending[]) => Promise<unknown>;
}

const lanes = { quick: nextToSend, photos: nextPhoto } as const;
type Lane = keyof typeof lanes;

/**
 * What waits on a device for the server. Things of one person are sent in the order in which they were noted, photos beside
 * them, the previews of all before any photo; each until the server has taken or refused it, however often it takes.
 */
export function createOutbox({ store, send, alone, clock, announce, againAfterMs }: OutboxParts) {
  let pending: readonly Pending[] = [];
  const failing: Record<Lane, boolean> = { quick: false, photos: false };
  let trouble: string | null = null;
  let sender: Sender | null = null;
  let reading: Promise<void> | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const running: Record<Lane, Promise<void> | null> = { quick: null, photos: null };
  /** While the page reads what followed: told when there is more to send. */
  const comes: Record<Lane, (() => void) | null> = { quick: null, photos: null };
  const keeping = createKeeping(store);
  const listeners = new Set<() => void>();

  function set(next: readonly Pending[]): void {
    pending = next;
    for (const listener of listeners) listener();
  }
  const replace = (...entries: Pending[]): void => {
    const by = new Map(entries.map((entry) => [entry.id, entry]));
    set(pending.map((each) => by.get(each.id) ?? each));
  };

  async function keep(...entries: Pending[]): Promise<void> {
    await keeping.keep(entries);
    set([...pending]);
    announce();
  }
  async function drop(...ids: string[]): Promise<void> {
    set(pending.filter(({ id }) => !ids.includes(id)));
    keeping.forget(ids);
    await store.remove(...ids).catch(() => undefined);
    announce();
  }

  const read = async (): Promise<void> => {
    const found = await store.all().catch(() => null);
    if (found !== null) set(afterReading(pending, found, keeping.unkept));
  };
  const loaded = (): Promise<void> => (reading ??= read());

  /** What another page of this device has sent meanwhile need not go again. */
  async function notSentElsewhere(entries: readonly Pending[]): Promise<Pending[]> {
    const here = await Promise.all(
      entries.map(async ({ id }) => keeping.unkept.has(id) || store.has(id).catch(() => true)),
    );
    const gone = entries.filter((_, index) => !here[index]);
    if (gone.length > 0) replace(...gone.map((entry): Pending => ({ ...entry, taken: true })));
    return entries.filter((_, index) => here[index]);
  }

  async function apply(entries: readonly Pending[], outcomes: readonly Outcome[]): Promise<void> {
    const through: string[] = [];
    const changed: Pending[] = [];
    for (const [index, entry] of entries.entries()) {
      const { refused, told, sent, preview } = outcomes[index] ?? {};
      // It may have changed while it was on its way.
      const newest = pending.find(({ id }) => id === entry.id) ?? entry;
      // Drawn on since: it goes once more, with what was drawn; the shop knows the photo.
      const drawnOn =
        newest.kind === 'photo' && entry.kind === 'photo' && newest.marked?.id !== entry.marked?.id;
      if (drawnOn && refused === undefined) continue;
      if (sent !== undefined && newest.kind === 'photo') replace({ ...newest, sent });
      else if (preview !== undefined && newest.kind === 'photo') replace({ ...newest, preview });
      else if (refused !== undefined) changed.push({ ...newest, refused });
      else {
        if (told !== undefined) changed.push({ ...newest, told });
        else through.push(entry.id);
        replace({ ...newest, taken: true });
      }
    }
    // The store first forgets what is through: a page closed now sends nothing again, and loses no answer that matters.
    if (through.length > 0) await store.remove(...through).catch(() => undefined);
    if (changed.length > 0) {
      replace(
        ...changed.map(
          (entry): Pending => (entry.told === undefined ? entry : { ...entry, taken: true }),
        ),
      );
      await store.put(...changed).catch(() => undefined);
    }
    announce();
  }

  /** The page reads what followed from what was taken; only then it leaves the list. */
  async function showTaken(): Promise<void> {
    const taken = pending.filter((entry) => entry.taken);
    if (taken.length === 0) return;
    await sender?.onTaken(taken);
    const shown = new Set(taken.map(({ id }) => id));
    keeping.forget([...shown]);
    set(
      pending.flatMap((entry): Pending[] => {
        if (!shown.has(entry.id)) return [entry];
        const { taken: _, ...rest } = entry;
        return rest.told === undefined ? [] : [rest];
      }),
    );
  }

  /** What comes while the page reads goes at once, and is read with the rest: a slow reading holds no act back. */
  async function shownOrMore(lane: Lane): Promise<'shown' | 'more'> {
    const more = new Promise<'more'>((resolve) => {
      comes[lane] = () => resolve('more');
    });
    const shown = showTaken().then(() => 'shown' as const);
    // Where more came first, the reading that follows it says what went wrong.
    shown.catch(() => undefined);
    return Promise.race([shown, more]).finally(() => {
      comes[lane] = null;
    });
  }

  async function drain(lane: Lane): Promise<void> {
    await loaded();
    try {
      do {
        for (let entries = waitsIn(lane); entries.length > 0; entries = waitsIn(lane)) {
          const some = entries;
          await alone(`fairlead-${lane}`, async () => {
            const mine = await notSentElsewhere(some);
            if (mine.length > 0) await apply(mine, await send(mine));
          });
          failing[lane] = false;
          // A photo goes as soon as its finding is through, before the page has read what followed from that.
          if (lane === 'quick' && waitsIn('photos').length > 0) sendNow();
        }
      } while ((await shownOrMore(lane)) === 'more');
      // Also where there was nothing to send: else what comes next would wait for an attempt that nobody makes.
      failing[lane] = false;
    } catch (problem) {
      const { kind, code, message } = problem as Partial<RequestProblem>;
      failing[lane] = true;
      trouble = code === undefined || code === 'NETWORK' ? null : (message ?? null);
      if (kind !== 'signIn') {
        clearTimeout(timer);
        timer = setTimeout(sendNow, againAfterMs);
      }
    }
  }

  const waitsIn = (lane: Lane): Pending[] =>
    sender === null ? [] : lanes[lane](pending, sender.personId);

  function sendNow(): void {
    if (sender === null) return;
    clearTimeout(timer);
    for (const lane of ['quick', 'photos'] as const) {
      if (waitsIn(lane).length > 0) comes[lane]?.();
      running[lane] ??= drain(lane).finally(() => {
        running[lane] = null;
        set([...pending]);
        // Something may have come in between the last look and now; a photo may have waited for its finding.
        const left = (each: Lane) =>
          running[each] === null && !failing[each] && waitsIn(each).length > 0;
        if (left('quick') || left('photos')) sendNow();
      });
    }
  }

  return {
    subscribe(listener: () => void): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    now: (): readonly Pending[] => pending,
    /** True after an attempt failed for want of a network or a server. */
    failing: (): boolean => failing.quick || failing.photos,
    /** What the server said when it took nothing just now; null where it could not be reached at all. */
    trouble: (): string | null => trouble,
    /** Whether the browser refused to keep some of it: that lives as long as this page. */
    unkept: (): boolean => pending.some((entry) => waits(entry) && keeping.wasRefused(entry.id)),
    /** Begins to send what this person left on this device. Returns what ends it. */
    open(next: Sender): () => void {
      sender = next;
      sendNow();
      return () => {
        if (sender === next) sender = null;
      };
    },
    sendNow,
    /** Another page of this device has changed the store. */
    async changedElsewhere(): Promise<void> {
      await loaded();
      await read();
      sendNow();
    },
    async add(...entries: Pending[]): Promise<void> {
      const noted = entries.map((entry) => ({ ...entry, clock: clock() }));
      keeping.expect(noted.map(({ id }) => id));
      set([...pending, ...noted]);
      await loaded();
      // After everything that is here, whatever the device's clock says by now.
      const last = Math.max(0, ...pending.map(({ seq }) => seq ?? 0));
      const placed = noted.map(
        (entry, index): Pending => ({
          ...entry,
          seq: Math.max(entry.madeAt, last + 1) + index,
        }),
      );
      replace(...placed);
      set(inOrder(pending));
      await keep(...placed);
      sendNow();
    },
    /** What is drawn over a photo that waits goes with it. False where it does not wait any more. */
    async mark(
      id: string,
      marks: PhotoMarkInput[],
      drawn: Pick<MarkedPhoto, 'id' | 'madeAt'>,
    ): Promise<boolean> {
      const entry = pending.find((each) => each.id === id && waits(each));
      if (entry?.kind !== 'photo') return false;
      const marked: PendingPhoto = { ...entry, marked: { ...drawn, clock: clock(), marks } };
      replace(marked);
      await keep(marked);
      return true;
    },
    /** Resolves when everything but photos is sent, or the attempt failed. */
    async settle(): Promise<boolean> {
      sendNow();
      await running.quick;
      return waitsIn('quick').length === 0;
    },
    tryAgain(entry?: Pending): void {
      if (entry === undefined) return sendNow();
      const { refused: _, ...again } = entry;
      replace(again);
      void keep(again).then(sendNow);
    },
    /** Puts away what was refused, or what was told and is understood. A finding takes its photos along: they have nothing to join. */
    discard(entry: Pending): void {
      const along = pending.filter(
        (each) => entry.refused !== undefined && each.kind === 'photo' && each.finding === entry.id,
      );
      void drop(entry.id, ...along.map(({ id }) => id));
    },
  };
}

export type Outbox = ReturnType<typeof createOutbox>;
