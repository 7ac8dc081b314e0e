import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useSyncExternalStore } from 'react';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { BenchDocument, type BenchItem } from './bench-documents.ts';
import { outbox } from './outbox.ts';
import type { Pending } from './outbox-store.ts';
import { type Running, runningNow } from './running-now.ts';

const nothing: readonly Pending[] = [];
const LOOK_AGAIN_MS = 20_000;

/** What waits to be sent on this device, and whether sending fails just now. */
export function useOutbox() {
  const pending = useSyncExternalStore(outbox.subscribe, outbox.now, () => nothing);
  const failing = useSyncExternalStore(outbox.subscribe, outbox.failing, () => false);
  const trouble = useSyncExternalStore(outbox.subscribe, outbox.trouble, () => null);
  return { pending, failing, trouble };
}

/** What a mechanic has before them, and the clock, which answers at once and sends when it can. */
export function useBench() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const bench = useQuery({
    queryKey: ['bench'],
    queryFn: () => request(BenchDocument),
    refetchInterval: LOOK_AGAIN_MS,
  });
  const { pending, failing } = useOutbox();
  const personId = viewer.data?.person.id;

  useEffect(() => {
    if (personId === undefined) return;
    return outbox.open({
      personId,
      onSent: () =>
        Promise.all([
          queries.invalidateQueries({ queryKey: ['bench'] }),
          queries.invalidateQueries({ queryKey: ['item'] }),
        ]),
    });
  }, [personId, queries]);

  const items = bench.data?.bench?.items ?? [];
  const server = bench.data?.bench?.running ?? null;
  const mine = pending.filter((entry) => entry.personId === personId);
  const running: Running | null = runningNow(
    server && { itemId: server.item.id, startedAt: server.startedAt },
    mine,
  );
  const known = new Map(items.map((item) => [item.id, item]));
  if (server) known.set(server.item.id, known.get(server.item.id) ?? server.item);

  const add = (kind: 'start' | 'switch' | 'stop', item: Pick<BenchItem, 'id' | 'title'>) => {
    if (personId === undefined) return Promise.resolve();
    const id = clientId();
    const input = { kind, itemId: item.id, at: new Date().toISOString(), clientEventId: id };
    const words = `${kind === 'stop' ? 'Stop' : 'Start'}: ${item.title}`;
    return outbox.add({ kind: 'clock', id, personId, madeAt: Date.now(), words, input });
  };
  return {
    viewer,
    bench,
    items,
    running,
    runningItem: running === null ? null : (known.get(running.itemId) ?? null),
    failing,
    start: (item: Pick<BenchItem, 'id' | 'title'>) =>
      add(running === null ? 'start' : 'switch', item),
    stop: (item: Pick<BenchItem, 'id' | 'title'>) => add('stop', item),
    readCautions: (item: Pick<BenchItem, 'id' | 'title'>) =>
      personId === undefined
        ? Promise.resolve()
        : outbox.add({
            kind: 'cautions',
            id: clientId(),
            personId,
            madeAt: Date.now(),
            words: `Cautions read: ${item.title}`,
            itemId: item.id,
          }),
    /** Whether the cautions of an item need not be shown again. */
    cautionsRead: (item: Pick<BenchItem, 'id' | 'cautionsRead'>) =>
      item.cautionsRead ||
      mine.some((entry) => entry.kind === 'cautions' && entry.itemId === item.id),
  };
}

export type Bench = ReturnType<typeof useBench>;
