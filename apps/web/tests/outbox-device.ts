import { createOutbox, type Outcome } from '../features/work/outbox-core.ts';
import type { Pending } from '../features/work/pending.ts';
import { RequestProblem } from '../graphql/request.ts';

/** A device: its store outlives its pages, and its pages share it. */
export function device() {
  const rows = new Map<string, Pending>();
  let full = (_: readonly Pending[]) => false;
  const pages: (() => void)[] = [];
  const held = new Map<string, Promise<unknown>>();
  const store = {
    all: async () => [...rows.values()],
    has: async (id: string) => rows.has(id),
    put: async (...given: Pending[]) => {
      if (full(given)) throw new Error('QuotaExceededError');
      for (const { taken: _, ...row } of given) rows.set(row.id, row);
      return undefined;
    },
    remove: async (...ids: string[]) => {
      for (const id of ids) rows.delete(id);
      return undefined;
    },
  };
  return {
    rows,
    fillUp: (when: (given: readonly Pending[]) => boolean) => {
      full = when;
    },
    page(
      send: (entries: readonly Pending[]) => Promise<Outcome[]>,
      clock = () => ({ offsetMs: 0, heard: 0 }),
    ) {
      const me = pages.length;
      const outbox = createOutbox({
        store,
        send,
        clock,
        againAfterMs: 5,
        announce: () => {
          for (const [index, other] of pages.entries()) if (index !== me) other();
        },
        alone: <T>(name: string, work: () => Promise<T>) => {
          const mine = (held.get(name) ?? Promise.resolve()).then(work, work);
          held.set(name, mine);
          return mine;
        },
      });
      pages.push(() => void outbox.changedElsewhere());
      return outbox;
    },
  };
}
export const away = () => new RequestProblem('away', 'NETWORK', 'Away.');
let made = 0;
export const noted = (over: Partial<Pending> = {}): Pending => {
  made += 1;
  const id = `e${made}`;
  return {
    kind: 'clock',
    id,
    personId: 'p',
    madeAt: 1000 + made,
    words: id,
    input: { kind: 'start', itemId: 'a', at: '', clientEventId: id },
    ...over,
  } as Pending;
};
export const photo = (finding: string) =>
  noted({ kind: 'photo', finding, photo: new Blob(['x']) } as never);
export const onTaken = () => Promise.resolve();
export const quiet = () => new Promise((resolve) => setTimeout(resolve, 40));

/** A shop that takes everything, and what it was sent, in order. */
export function shop(answer: (entry: Pending) => Outcome = () => ({})) {
  const got: string[] = [];
  return {
    got,
    up: true,
    async send(this: void, entries: readonly Pending[]) {
      return entries.map((entry) => {
        got.push(entry.id);
        return answer(entry);
      });
    },
  };
}
