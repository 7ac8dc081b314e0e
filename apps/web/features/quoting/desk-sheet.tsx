'use client';

import { useInfiniteQuery, useQueryClient } from '@tanstack/react-query';
import { Button, ButtonLink } from '../../components/Button.tsx';
import { Dimension } from '../../components/Dimension.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import type { QuotesQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { commonScale } from '../../lib/figures/quantity.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { PromisesKept } from '../hangar/promises-kept.tsx';
import { MailsFailed } from '../post/mails-failed.tsx';
import { DeadlinesPressing } from '../programme/deadlines-pressing.tsx';
import { ClocksLine } from '../work/ClocksLine.tsx';
import { DeskOrders } from './desk-orders.tsx';
import styles from './desk-sheet.module.css';
import { QuotesDocument } from './quote-documents.ts';
import { estimateOf } from './quote-figures.ts';
import { quoteMarks } from './quote-words.ts';

type Quote = QuotesQuery['quotes']['edges'][number]['node'];

/** The front desk: what is offered, what is planned and here, and the way to a new quote. */
export function DeskSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const quotes = useInfiniteQuery({
    queryKey: ['quotes'],
    initialPageParam: null as string | null,
    queryFn: async ({ pageParam }) => (await request(QuotesDocument, { after: pageParam })).quotes,
    getNextPageParam: ({ pageInfo }) =>
      pageInfo.hasNextPage ? (pageInfo.endCursor ?? null) : null,
  });
  const rows = quotes.data?.pages.flatMap(({ edges }) => edges.map(({ node }) => node));
  const total = quotes.data?.pages[0]?.totalCount ?? 0;
  const waiting = rows?.filter(({ state }) => state === 'sent').length ?? 0;
  const problem = viewer.error ?? quotes.error;
  return (
    <Sheet
      here="desk"
      viewer={viewer.data?.person ?? null}
      title="Front desk"
      titleBlock={{
        what: 'Quotes and orders',
        cells: [
          { label: 'Quotes', value: total, figures: true },
          { label: 'Wait for the owner', value: waiting, figures: true },
          {
            label: 'Date',
            value: viewer.data === undefined ? '' : dayText(new Date(), viewer.data.shop.timeZone),
            figures: true,
          },
          { label: 'Shop', value: viewer.data?.shop.name ?? '', span: 'whole' },
        ],
      }}
    >
      <div className={styles.parts}>
        <div data-screen-only="">
          <div className={styles.ways}>
            <ButtonLink kind="primary" href="/desk/quotes/new">
              New quote
            </ButtonLink>
            <ButtonLink href="/desk/aircraft/new">New aircraft</ButtonLink>
            <ButtonLink href="/desk/post">Post</ButtonLink>
          </div>
        </div>
        <MailsFailed />
        <DeadlinesPressing />
        <ClocksLine />
        {problem !== null ? (
          <NoAnswer
            head="No list to show"
            problem={problem}
            onAgain={() => void client.refetchQueries()}
          />
        ) : rows === undefined ? (
          <Loading>Fetching the quotes</Loading>
        ) : rows.length === 0 ? (
          <Empty>No quote has been made yet; the first takes under a minute.</Empty>
        ) : (
          <QuoteRows rows={rows} />
        )}
        {quotes.hasNextPage ? (
          <div>
            <Button
              busy={quotes.isFetchingNextPage ? 'Fetching' : undefined}
              onClick={() => void quotes.fetchNextPage()}
            >
              Earlier quotes
            </Button>
          </div>
        ) : null}
        <DeskOrders currency={viewer.data?.shop.currency ?? 'USD'} />
        <PromisesKept />
      </div>
    </Sheet>
  );
}

function QuoteRows({ rows }: { rows: readonly Quote[] }) {
  const scale = commonScale(rows.map(({ newest }) => Number(newest.high)));
  return (
    <PartsList
      caption="Quotes, newest first"
      columns={[
        { key: 'quote', head: 'Quote' },
        { key: 'state', head: 'State' },
        { key: 'amount', head: 'Net', kind: 'dimension' },
        { key: 'holds', head: 'Holds' },
      ]}
      rows={rows.map(({ id, number, title, state, aircraft, contact, finding, newest }) => ({
        key: `quote-${number}`,
        cells: {
          quote: (
            <a href={`/desk/quotes/${id}`}>
              {number} · {aircraft.registration}, {title}
            </a>
          ),
          state: <Hatch {...quoteMarks[state]} />,
          amount: (
            <Dimension
              unit={newest.currency}
              scale={scale}
              estimate={estimateOf({
                low: BigInt(newest.low),
                likely: BigInt(newest.likely),
                p80: BigInt(newest.p80),
                high: BigInt(newest.high),
              })}
            />
          ),
          holds: `until ${calendarDateText(newest.expiresOn)}`,
        },
        note: `${contact.name} · revision ${newest.revision}${finding === null ? '' : ` · finding ${finding.number}`}`,
      }))}
    />
  );
}
