import type { QueryClient, QueryKey } from '@tanstack/react-query';
import { request } from '../../graphql/request.ts';
import { BENCH_DATABASE } from '../../lib/forget-bench.ts';
import { openStore } from '../../lib/idb.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import type { BenchAnswer } from './bench-documents.ts';
import { BenchSheetsDocument, type ItemOnSheet } from './item-documents.ts';

/** An answer of the shop as this device had it last. */
interface Kept {
  key: string;
  queryKey: QueryKey;
  /** This device's clock, milliseconds since 1970. */
  at: number;
  value: unknown;
}

/** What is kept by its key: who is signed in, the list, and what their sheets ask for. */
const KEPT = new Set(['viewer', 'bench', 'item', 'itemCare', 'openOnOrder', 'torqueChoices']);
const SHEETS_EVERY_MS = 5 * 60_000;
const kept = openStore<Kept>(BENCH_DATABASE, 'kept', 'key');
const rowOf = (queryKey: QueryKey, value: unknown): Kept => ({
  key: JSON.stringify(queryKey),
  queryKey,
  at: Date.now(),
  value,
});
/** What a browser keeps nothing of is asked anew. */
const put = (...rows: Kept[]) => kept.put(...rows).catch(() => undefined);

let begun = false;
/** When the sheets of all items were last asked for. */
let sheetsAt = Number.NEGATIVE_INFINITY;
/** The next time that the list comes, the sheets are asked for anew. */
export const sheetsAreOld = (): void => {
  sheetsAt = Number.NEGATIVE_INFINITY;
};

/**
 * Shows at once what this device knew last of the bench, with its age, and from now on keeps what the shop answers: who is
 * signed in, the list, and the sheet of every item on it, opened before or not.
 */
export async function keepBench(queries: QueryClient): Promise<void> {
  if (begun) return;
  begun = true;
  for (const key of KEPT) queries.setQueryDefaults([key], { gcTime: Number.POSITIVE_INFINITY });
  const rows = await kept.all().catch((): Kept[] => []);
  let owner = ownerOf(rows.find(({ key }) => key === '["viewer"]')?.value);
  let sheetsOf = '';
  const hear = (queryKey: QueryKey, value: unknown) => {
    const [what] = queryKey;
    if (what === 'viewer') {
      if (owner !== undefined && owner !== ownerOf(value)) void changeHands(queries);
      owner = ownerOf(value);
    }
    if (KEPT.has(String(what))) void put(rowOf(queryKey, value));
    if (what !== 'bench') return;
    const ids = ((value as BenchAnswer).bench?.items ?? []).map(({ id }) => id).join();
    if (Date.now() - sheetsAt < SHEETS_EVERY_MS && ids === sheetsOf) return;
    [sheetsAt, sheetsOf] = [Date.now(), ids];
    const orders = ((value as BenchAnswer).bench?.items ?? []).map(({ order }) => order.id);
    void keepSheets(queries, [...new Set(orders)]).catch(sheetsAreOld);
  };
  queries.getQueryCache().subscribe((event) => {
    if (event.type !== 'updated' || event.action.type !== 'success' || event.action.manual) return;
    hear(event.query.queryKey, event.query.state.data);
  });
  // What the shop has answered while this was on its way.
  const answered = queries.getQueryCache().getAll();
  for (const { queryKey, state } of answered)
    if (state.data !== undefined) hear(queryKey, state.data);
  for (const { queryKey, at, value } of rows)
    if (queries.getQueryData(queryKey) === undefined)
      // Who is signed in is asked again in any case: it may be somebody else by now.
      queries.setQueryData(queryKey, value, { updatedAt: queryKey[0] === 'bench' ? at : 1 });
}

const ownerOf = (value: unknown) => (value as Viewer | undefined)?.person.id;

/** Somebody else is signed in on this device: what the one before saw of the shop goes. */
async function changeHands(queries: QueryClient): Promise<void> {
  const rows = await kept.all().catch((): Kept[] => []);
  const old = rows.filter(({ key }) => key !== '["viewer"]').map(({ key }) => key);
  await kept.remove(...old).catch(() => undefined);
  for (const key of KEPT)
    if (key !== 'viewer' && key !== 'bench') queries.removeQueries({ queryKey: [key] });
  await queries.resetQueries({ queryKey: ['bench'] });
}

/** The sheets of all items on the bench, in one request, and what is open on their orders; those that have left it go. */
async function keepSheets(queries: QueryClient, orders: readonly string[]): Promise<void> {
  const { bench } = await request(BenchSheetsDocument);
  if (!bench) return;
  const sheets = bench.items.map((item) => {
    const queryKey = ['item', item.id];
    const before = queries.getQueryData<ItemOnSheet | null>(queryKey);
    const value = { ...item, stretches: withEnds(item.stretches, before?.stretches ?? []) };
    if (queries.getQueryState(queryKey)?.fetchStatus !== 'fetching')
      queries.setQueryData(queryKey, value, { updatedAt: 1 });
    return rowOf(queryKey, value);
  });
  await put(...sheets);
  keepPhotos(bench.items);
  const { fetchCare } = await import('../safety/fetch-care.ts');
  await fetchCare(queries, orders);
  const here = new Set(sheets.map(({ key }) => key));
  const gone = (await kept.all())
    .filter(
      ({ key, queryKey: [what, id] }) =>
        (what === 'item' && !here.has(key)) ||
        (what === 'itemCare' && !here.has(JSON.stringify(['item', id]))) ||
        (what === 'openOnOrder' && !orders.includes(String(id))),
    )
    .map(({ key }) => key);
  await kept.remove(...gone);
}

/** As many as are fetched before somebody looks at them. */
const MOST_PHOTOS = 24;

/** Photos that may be drawn on: the browser's own cache has them then for this sign-in, also with no network. */
function keepPhotos(items: readonly Pick<ItemOnSheet, 'findings'>[]): void {
  const photos = items.flatMap(({ findings }) => findings.flatMap(({ photos }) => photos));
  for (const { thumbUrl, middleUrl } of photos.slice(0, MOST_PHOTOS))
    for (const address of [thumbUrl, middleUrl]) new Image().src = address;
}

/** Which events began and ended a stretch is asked for one item at a time: it is known of those opened before. */
function withEnds(
  stretches: readonly Omit<ItemOnSheet['stretches'][number], 'began' | 'ended'>[],
  before: ItemOnSheet['stretches'],
): ItemOnSheet['stretches'] {
  return stretches.map((stretch) => {
    const known = before.find(({ id }) => id === stretch.id);
    return { ...stretch, began: known?.began ?? null, ended: known?.ended ?? null };
  });
}
