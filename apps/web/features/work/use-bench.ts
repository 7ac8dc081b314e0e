import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useMemo, useSyncExternalStore } from 'react';
import type { CorrectClockInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { readAgain } from '../../lib/read-again.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import type { Fact } from '../safety/facts.ts';
import {
  type BenchAnswer,
  BenchDocument,
  type BenchItem,
  type Forgotten,
} from './bench-documents.ts';
import { type ItemNow, itemNow } from './items-now.ts';
import { outbox } from './outbox.ts';
import { counts, type ItemChange, type Pending } from './pending.ts';
import { type Running, runningNow } from './running-now.ts';
import { keepSupervision, useSupervisionToday } from './supervision.ts';

const nothing: readonly Pending[] = [];
const LOOK_AGAIN_MS = 20_000;

/** What waits to be sent on this device, and whether sending fails just now. */
export function useOutbox() {
  const pending = useSyncExternalStore(outbox.subscribe, outbox.now, () => nothing);
  const failing = useSyncExternalStore(outbox.subscribe, outbox.failing, () => false);
  const trouble = useSyncExternalStore(outbox.subscribe, outbox.trouble, () => null);
  const unkept = useSyncExternalStore(outbox.subscribe, outbox.unkept, () => false);
  return { pending, failing, trouble, unkept };
}

/** A better time for a clock event, and where it says so whose supervision it was. */
export type ClockCorrected = Omit<CorrectClockInput, 'clientEventId'>;

type Named = Pick<BenchItem, 'id' | 'title'>;

const changeWords: Record<ItemChange['does'], string> = {
  wait: 'It waits',
  resume: 'No longer waits',
  finish: 'Done',
  reopen: 'Opened again',
  putOff: 'Put off',
  secondLook: 'Second look',
};

/** What is said of an item only once nobody's clock runs on it. */
const ends = new Set<ItemChange['does']>(['wait', 'finish', 'putOff']);

/** What a mechanic has before them, and all that they do: it shows at once and is sent when it can be. */
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
      onTaken: async (taken) => {
        const ranBefore = queries.getQueryData<BenchAnswer>(['bench'])?.bench?.running?.item.id;
        await Promise.all(
          ['item', 'itemCare', 'openOnOrder'].map((key) =>
            queries.invalidateQueries({ queryKey: [key] }),
          ),
        );
        // Before the list comes: it brings all sheets up to date where these were too many.
        await import('./keep-taken.ts').then(
          ({ keepTaken }) => keepTaken(queries, taken, ranBefore),
          () => undefined,
        );
        await readAgain(queries, ['bench']);
      },
    });
  }, [personId, queries]);

  const mine = useMemo(
    () => pending.filter((entry) => entry.personId === personId),
    [pending, personId],
  );
  const answer = bench.data?.bench;
  const server = answer?.running ?? null;
  const known = useMemo(() => {
    const all = [...(server ? [server.item] : []), ...(answer?.items ?? [])];
    return new Map(all.map((item) => [item.id, itemNow(item, mine)]));
  }, [answer, server, mine]);
  const items = (answer?.items ?? [])
    .flatMap(({ id }) => known.get(id) ?? [])
    .filter(({ state }) => state !== 'put_off' && state !== 'inspected');
  const running: Running | null = runningNow(
    server && { itemId: server.item.id, startedAt: server.startedAt },
    mine,
  );

  const supervisors = answer?.supervisors ?? [];
  const timeZone = viewer.data?.shop.timeZone;
  const today = useSupervisionToday(
    personId,
    timeZone,
    supervisors.map(({ id }) => id),
  );
  /** Under whom they work today; null: nobody; undefined: they have to say so first. */
  const supervisor = answer?.supervised === true ? today : null;
  const answered = new Set(
    mine.flatMap((entry) => (entry.kind === 'answer' && counts(entry) ? entry.input.startId : [])),
  );

  const common = (words: string) => ({
    id: clientId(),
    personId: personId ?? '',
    madeAt: Date.now(),
    words,
  });
  const clocked = (
    kind: 'start' | 'switch' | 'stop',
    item: Named,
    supervisedById: string | null = null,
  ): Pending => {
    const entry = common(`${kind === 'stop' ? 'Stop' : 'Start'}: ${item.title}`);
    const at = new Date(entry.madeAt).toISOString();
    return {
      ...entry,
      kind: 'clock',
      input: {
        kind,
        itemId: item.id,
        at,
        clientEventId: entry.id,
        ...(supervisedById !== null && { supervisedById }),
      },
    };
  };
  const add = (...entries: Pending[]) =>
    personId === undefined ? Promise.resolve() : outbox.add(...entries);
  const { name = '', initials = '' } = viewer.data?.person ?? {};
  const note = (fact: Fact, words: string) =>
    add({ ...common(words), kind: 'care', ...fact, name, initials });
  return {
    viewer,
    bench,
    mine,
    items,
    running,
    runningItem: running === null ? null : (known.get(running.itemId) ?? null),
    failing,
    supervisor,
    supervisors,
    /** Whether they are asked under whom they work. */
    supervised: answer?.supervised === true,
    /** What the order of the running item comes to while its clock runs on. */
    costAhead:
      server !== null && server.item.id === running?.itemId ? server.item.order.costAhead : [],
    /** Clocks of theirs that look forgotten, and of which they have not said yet how it was. */
    forgotten: (answer?.forgotten ?? []).filter(({ startId }) => !answered.has(startId)),
    /** Under whom they work for the rest of the day. */
    workUnder: (byId: string | null) => {
      if (personId !== undefined && timeZone !== undefined)
        keepSupervision(personId, byId, timeZone);
    },
    start: (item: Named, under: string | null = supervisor ?? null) =>
      add(clocked(running === null ? 'start' : 'switch', item, under)),
    /** Says how it was with a clock that looks forgotten. */
    answer: (
      { startId, startedAt, item }: Forgotten,
      said: { stoppedAt: string | null; reason: string },
    ) => {
      const entry = common(`How it was with the clock: ${item.title}`);
      return add({
        ...entry,
        kind: 'answer',
        input: { ...said, startId, clientEventId: entry.id },
        of: { itemId: item.id, startedAt: String(startedAt) },
      });
    },
    stop: (item: Named) => add(clocked('stop', item)),
    readCautions: (item: Named) =>
      add({ ...common(`Cautions read: ${item.title}`), kind: 'cautions', itemId: item.id }),
    /** Says something of an item; a clock of this person's that runs on it is stopped first. */
    change: (item: Named, change: ItemChange) =>
      add(
        ...(running?.itemId === item.id && ends.has(change.does) ? [clocked('stop', item)] : []),
        { ...common(`${changeWords[change.does]}: ${item.title}`), kind: 'change', ...change },
      ),
    /** Notes a fact of how safe an aircraft stands. */
    note,
    /** Initials under a line of its list, or takes them back. */
    initial: (item: Named, line: number, kind: 'initialled' | 'withdrawn') =>
      note(
        { does: 'initial', input: { itemId: item.id, line, kind } },
        `${kind === 'initialled' ? 'Initials' : 'Initials taken back'}, line ${line}: ${item.title}`,
      ),
    takeOver: (item: Named, handOverId: string) =>
      note({ does: 'takeOver', input: { handOverId } }, `Taken over: ${item.title}`),
    /** Says where they stop; a clock of theirs that runs on it is stopped first. */
    leave: async (
      item: Named & { order: { id: string } },
      words: { done: string; notDone: string; loose: string },
    ) => {
      if (running?.itemId === item.id) await add(clocked('stop', item));
      const input = { ...words, itemId: item.id, orderId: item.order.id };
      await note({ does: 'leave', input }, `Stopped here: ${item.title}`);
    },
    /** Better times for clock events; of several each is sent by itself. */
    correct: (item: Named, inputs: readonly ClockCorrected[]) =>
      add(
        ...inputs.map((input): Pending => {
          const entry = common(`Clock corrected: ${item.title}`);
          return { ...entry, kind: 'correction', input: { ...input, clientEventId: entry.id } };
        }),
      ),
  };
}

export type Bench = ReturnType<typeof useBench>;
export type ItemHere = ItemNow<BenchItem>;
