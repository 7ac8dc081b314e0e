'use client';

import { useInfiniteQuery, useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { FindField } from './find-field.tsx';
import { FittedList } from './fitted-list.tsx';
import { IssueForm } from './issue-form.tsx';
import { LotList } from './lot-list.tsx';
import { OutList, type PartOut } from './out-list.tsx';
import { PartForm } from './part-form.tsx';
import { ReceiveForm } from './receive-form.tsx';
import { ReturnForm } from './return-form.tsx';
import { ShelfDrawing } from './shelf-drawing.tsx';
import { shelfLife } from './shelves.ts';
import styles from './stores.module.css';
import {
  type Lot,
  type LotWithNotes,
  type OrderWithParts,
  PartsOutDocument,
  ShelfDocument,
} from './stores-documents.ts';
import { StoresSheets } from './stores-sheets.tsx';

type Hand =
  | { does: 'receive' }
  | { does: 'part' }
  | { does: 'issue'; lot: Lot }
  | { does: 'return'; out: PartOut };

const notes = [
  'A lot past its date or without a release certificate is issued only for a reason, by name, from its own sheet. Take what ends first, then what came first.',
  'A part goes to an item of work and is billed with it; its batch stays with the record of the order.',
  'Whether a part is eligible for an aircraft is in the maker’s current data, not on this sheet.',
];

/** What lies in stores, where, how much is left of it, and what is out on the work. */
export function StoresSheet() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const shelf = useInfiniteQuery({
    queryKey: ['shelf'],
    initialPageParam: null as string | null,
    queryFn: async ({ pageParam }) =>
      (await request(ShelfDocument, { after: pageParam, inStock: true })).lots,
    getNextPageParam: ({ pageInfo }) => (pageInfo.hasNextPage ? pageInfo.endCursor : undefined),
  });
  const out = useQuery({
    queryKey: ['partsOut'],
    queryFn: async () => (await request(PartsOutDocument)).orders.edges.map(({ node }) => node),
  });
  const problem = viewer.error ?? shelf.error ?? out.error;
  const shop = viewer.data?.shop;
  const today = shop ? dayOf(new Date().toISOString(), shop.timeZone) : '';
  const lots = shelf.data?.pages.flatMap(({ edges }) => edges.map(({ node }) => node));
  const past = lots?.filter((lot) => shelfLife(lot.shelfLifeUntil, today).stands === 'past') ?? [];
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title="Stores"
      notes={notes}
      titleBlock={{
        what: 'What lies on the shelves, and what is out',
        cells: [
          { label: 'Lots', value: lots?.length ?? '', figures: true },
          { label: 'Past their date', value: lots === undefined ? '' : past.length, figures: true },
          { label: 'Date', value: shop ? dayText(new Date(), shop.timeZone) : '', figures: true },
          { label: 'Shop', value: shop?.name ?? '', span: 'whole' },
        ],
      }}
    >
      {lots && out.data && shop ? (
        <Drawn
          lots={lots}
          orders={out.data}
          shop={shop}
          today={today}
          who={viewer.data?.person.name ?? ''}
          writes={viewer.data?.person.roles.some((role) => role !== 'front_desk') === true}
          addsParts={viewer.data?.person.roles.some((role) => role !== 'mechanic') === true}
          more={
            shelf.hasNextPage ? (
              <Button
                busy={shelf.isFetchingNextPage ? 'Fetching' : undefined}
                onClick={() => void shelf.fetchNextPage()}
              >
                More lots
              </Button>
            ) : null
          }
        />
      ) : problem ? (
        <NoAnswer
          head="No shelves to show"
          problem={problem}
          onAgain={() => void queries.refetchQueries()}
        />
      ) : (
        <Loading>Looking at the shelves</Loading>
      )}
    </Sheet>
  );
}

function Drawn({
  lots,
  orders,
  shop,
  today,
  who,
  writes,
  addsParts,
  more,
}: {
  lots: readonly LotWithNotes[];
  orders: readonly OrderWithParts[];
  shop: Viewer['shop'];
  today: string;
  /** The name of whoever reads: a reason is kept under it. */
  who: string;
  /** Whether whoever reads may write notes on parts. */
  writes: boolean;
  /** Whether whoever reads may add parts that the shop does not know. */
  addsParts: boolean;
  /** The way to lots that are not fetched yet. */
  more: React.ReactNode;
}) {
  const [hand, setHand] = useState<Hand | null>(null);
  const [said, setSaid] = useState('');
  const [wanted, setWanted] = useState('');
  const cameFrom = useRef<Element | null>(null);
  const start = useRef<HTMLButtonElement>(null);
  // Whoever leaves a form goes on where they opened it.
  useEffect(() => {
    if (hand !== null || cameFrom.current === null) return;
    const back = cameFrom.current;
    cameFrom.current = null;
    if (back instanceof HTMLElement && back.isConnected) back.focus();
    else start.current?.focus();
  }, [hand]);
  const open = (next: Hand) => {
    cameFrom.current = document.activeElement;
    setSaid('');
    setHand(next);
  };
  const ends = {
    onDone: (words: string) => {
      setSaid(words);
      setHand(null);
    },
    onLeave: () => setHand(null),
  };
  const words = wanted.toLowerCase().split(/\s+/).filter(Boolean);
  const shown = lots.filter(({ part, batch, bin, tag, supplier }) => {
    const whole = `${part.title} ${part.number} ${batch} ${bin} ${tag} ${supplier}`.toLowerCase();
    return words.every((word) => whole.includes(word));
  });
  return (
    <div className={styles.sections}>
      <StoresSheets here="shelves" />
      {hand?.does === 'receive' ? (
        <ReceiveForm today={today} currency={shop.currency} {...ends} />
      ) : hand?.does === 'part' ? (
        <PartForm currency={shop.currency} {...ends} />
      ) : hand?.does === 'issue' ? (
        <IssueForm
          key={hand.lot.id}
          lot={hand.lot}
          orders={orders}
          today={today}
          who={who}
          {...ends}
        />
      ) : hand?.does === 'return' ? (
        <ReturnForm key={`${hand.out.itemId} ${hand.out.lotId}`} out={hand.out} {...ends} />
      ) : (
        <div className={styles.top} data-screen-only="">
          <div className={styles.ways}>
            <Button ref={start} kind="primary" onClick={() => open({ does: 'receive' })}>
              Receive a delivery
            </Button>
            {addsParts ? <Button onClick={() => open({ does: 'part' })}>Add a part</Button> : null}
          </div>
          <FindField wanted={wanted} onWanted={setWanted} />
        </div>
      )}
      <p role="status" className={said === '' ? 'spoken' : styles.said}>
        {said}
      </p>
      {lots.length === 0 ? (
        <Empty>Nothing lies in stores: what a delivery brings stands in this list.</Empty>
      ) : (
        <>
          <ShelfDrawing lots={lots} today={today} />
          {shown.length === 0 ? (
            <p>Nothing in stores is called “{wanted}”: try a part number, a batch or a place.</p>
          ) : (
            <LotList
              caption={words.length === 0 ? 'On the shelves' : 'On the shelves, as asked for'}
              lots={shown}
              today={today}
              notes={{ timeZone: shop.timeZone, writes }}
              onIssue={(lot) => open({ does: 'issue', lot })}
            />
          )}
          {more}
        </>
      )}
      <OutList orders={orders} onReturn={(back) => open({ does: 'return', out: back })} />
      <More words="Components by serial number, and the aircraft that each is on">
        <FittedList />
      </More>
    </div>
  );
}
