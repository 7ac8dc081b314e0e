import { useInfiniteQuery } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Dimension } from '../../components/Dimension.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Day, Hours } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList, type PartsRow } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { commonScale } from '../../lib/figures/quantity.ts';
import type { HoursFilter } from './filter.ts';
import { type Miss, MissesDocument } from './hours-document.ts';
import { cameOut } from './hours-words.ts';

/** So many stand open even where all came out within. */
const FEWEST_OPEN = 4;

const columns: readonly PartsColumn[] = [
  { key: 'item', head: 'Item' },
  { key: 'quoted', head: 'Quoted', kind: 'dimension' },
  { key: 'clocked', head: 'Clocked', kind: 'figure' },
  { key: 'verdict', head: 'Came out' },
];

/** The finished items, furthest outside of their range first, a page at a time. */
export function Misses({ filter, timeZone }: { filter: HoursFilter; timeZone: string }) {
  const pages = useInfiniteQuery({
    queryKey: ['hours', 'misses', filter],
    queryFn: ({ pageParam }) => request(MissesDocument, { filter, after: pageParam }),
    initialPageParam: null as string | null,
    getNextPageParam: ({ hoursAccuracy: { misses } }) =>
      misses.pageInfo.hasNextPage ? misses.pageInfo.endCursor : undefined,
  });
  if (pages.error) {
    return (
      <ErrorNote
        head="No items to show"
        action={<Button onClick={() => void pages.refetch()}>Ask again</Button>}
      >
        {pages.error.message}
      </ErrorNote>
    );
  }
  if (!pages.data) return <Loading>Looking up the items</Loading>;
  const misses = pages.data.pages.flatMap(({ hoursAccuracy }) =>
    hoursAccuracy.misses.edges.flatMap((edge) => (edge ? [edge.node] : [])),
  );
  const scale = commonScale(misses.flatMap(({ p90, actual }) => [p90, actual]));
  // They come furthest outside first: what is folded lies within its range.
  const outside = misses.filter(({ p10, p90, actual }) => actual < p10 || actual > p90).length;
  const open = Math.max(FEWEST_OPEN, outside);
  const rows = misses.map(
    (miss): PartsRow => ({
      key: miss.itemId,
      note: <Note miss={miss} timeZone={timeZone} />,
      cells: {
        item: miss.title,
        quoted: <Dimension estimate={miss} unit="h" scale={scale} />,
        clocked: <Hours value={miss.actual} />,
        verdict: cameOut(miss),
      },
    }),
  );
  const further = pages.hasNextPage ? (
    <Button
      kind="plain"
      busy={pages.isFetchingNextPage ? 'Looking up more' : undefined}
      onClick={() => void pages.fetchNextPage()}
    >
      Show 12 more
    </Button>
  ) : null;
  return (
    <div>
      <PartsList
        caption="Items, the furthest outside of their range first"
        columns={columns}
        rows={rows.slice(0, open)}
      />
      {rows.length > open ? (
        <More words={`And ${rows.length - open} within their range`}>
          <PartsList
            caption="Items within their range"
            captionHidden
            columns={columns}
            rows={rows.slice(open)}
          />
          {further}
        </More>
      ) : (
        further
      )}
    </div>
  );
}

function Note({ miss, timeZone }: { miss: Miss; timeZone: string }) {
  return (
    <>
      <a href={`/desk/orders/${miss.orderId}`}>Order {miss.orderNumber}</a>, {miss.registration},{' '}
      <Day at={String(miss.doneAt)} timeZone={timeZone} />
      {miss.reason === '' ? null : (
        <>
          <br />
          {miss.reason}
        </>
      )}
    </>
  );
}
