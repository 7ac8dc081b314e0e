import type { KeptRows } from '../../lib/kept-rows.ts';
import type { Pending } from './pending.ts';

/**
 * Keeps things on the device as far as the browser lets it. What it refuses, because its storage is full or switched off,
 * still goes while the page lives; the page is told which.
 */
export function createKeeping(store: KeptRows<Pending>) {
  /** In no store: on their way there, or refused. */
  const unkept = new Set<string>();
  const refused = new Set<string>();
  const put = (entries: readonly Pending[]): Promise<void> =>
    store.put(...entries).then(
      () => forget(entries.map(({ id }) => id)),
      () => {
        for (const { id } of entries) for (const each of [unkept, refused]) each.add(id);
      },
    );
  function forget(ids: readonly string[]): void {
    for (const id of ids) for (const each of [unkept, refused]) each.delete(id);
  }
  return {
    unkept: unkept as ReadonlySet<string>,
    wasRefused: (id: string): boolean => refused.has(id),
    /** They are about to be kept: until then nothing else may take them for gone. */
    expect(ids: readonly string[]): void {
      for (const id of ids) unkept.add(id);
    },
    async keep(entries: readonly Pending[]): Promise<void> {
      await put(entries);
      // What has no room with its photos may have it without.
      const small = entries.filter(({ kind }) => kind !== 'photo');
      const retry = small.length > 0 && small.length < entries.length;
      if (retry && small.some(({ id }) => unkept.has(id))) await put(small);
    },
    forget,
  };
}
