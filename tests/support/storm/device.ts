import type { Outbox } from '../../../apps/web/features/work/outbox-core.ts';
import type { Pending } from '../../../apps/web/features/work/pending.ts';

/** A page that is open on the device. */
export interface Page {
  outbox: Outbox;
  open: boolean;
  close(): void;
  closed: Promise<void>;
}

/** Rows on the device, as IndexedDB keeps them: put whole or not at all, and after a moment. */
export class Storage {
  readonly rows = new Map<string, Pending>();
  full = false;
  /** A page's own way to them; a page that was closed reaches them no more. */
  page(isOpen: () => boolean) {
    const later = async () => {
      // Not a timer: thousands of them due at once would keep the process from hearing its sockets.
      await new Promise((resolve) => setImmediate(resolve));
      if (!isOpen()) await new Promise(() => undefined);
    };
    return {
      all: async () => {
        await later();
        return [...this.rows.values()];
      },
      has: async (id: string) => {
        await later();
        return this.rows.has(id);
      },
      put: async (...rows: Pending[]) => {
        await later();
        if (this.full) throw new Error('QuotaExceededError');
        for (const row of rows) this.rows.set(row.id, structuredClone(row));
        return undefined;
      },
      remove: async (...ids: string[]) => {
        await later();
        for (const id of ids) this.rows.delete(id);
        return undefined;
      },
    };
  }
}

export function newPage(): Page {
  let close: () => void = () => undefined;
  const closed = new Promise<void>((resolve) => (close = resolve));
  const page: Page = {
    outbox: undefined as never,
    open: true,
    closed,
    close: () => {
      page.open = false;
      close();
    },
  };
  return page;
}

/** What `navigator.locks` does: of those that ask for one name, one at a time. */
export class Locks {
  private readonly queues = new Map<string, Promise<unknown>>();

  one<T>(name: string, work: () => Promise<T>, closed: Promise<void>): Promise<T> {
    const mine = (this.queues.get(name) ?? Promise.resolve()).then(work);
    const over = mine.then(
      () => undefined,
      () => undefined,
    );
    // A page that is closed holds nothing up.
    this.queues.set(name, Promise.race([over, closed]));
    return mine;
  }
}
