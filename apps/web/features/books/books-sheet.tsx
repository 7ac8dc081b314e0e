'use client';

import { useInfiniteQuery, useQuery, useQueryClient } from '@tanstack/react-query';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { AccountsList } from './accounts-list.tsx';
import styles from './books.module.css';
import { CoresToCredit } from './cores-to-credit.tsx';
import { ForTheBookkeeper } from './for-the-bookkeeper.tsx';
import { BooksDocument, OrdersToBillDocument } from './invoice-documents.ts';
import { InvoiceList } from './invoice-list.tsx';
import { OurCostHours } from './our-cost-hours.tsx';
import { ToBillList, toBill } from './to-bill-list.tsx';

const notes = [
  'An issued invoice is never changed: a mistake is taken back whole by a credit note, and the order is billed again.',
  'Work past what the owner agreed to is recorded and not billed until it is agreed.',
  'Amounts are net unless said; tax is shown on each invoice by category.',
];

/** What is not billed yet, what is owed, and every invoice there is. */
export function BooksSheet() {
  const viewer = useViewer();
  const queries = useQueryClient();
  const enabled = viewer.data !== undefined;
  const orders = useQuery({
    queryKey: ['ordersToBill'],
    queryFn: () => request(OrdersToBillDocument),
    enabled,
  });
  const books = useInfiniteQuery({
    queryKey: ['books'],
    queryFn: ({ pageParam }) => request(BooksDocument, { after: pageParam }),
    initialPageParam: null as string | null,
    getNextPageParam: ({ invoices: { pageInfo } }) =>
      pageInfo.hasNextPage ? pageInfo.endCursor : undefined,
    enabled,
  });
  const problem = viewer.error ?? orders.error ?? books.error;
  const shop = viewer.data?.shop;
  const invoices = books.data?.pages.flatMap((page) => page.invoices.edges.map(({ node }) => node));
  const waiting = orders.data?.orders.edges.map(({ node }) => node).filter(toBill);
  const released = waiting?.filter(({ state }) => state === 'released');
  const owed = invoices?.reduce(
    (sum, invoice) => (BigInt(invoice.owed) > 0n ? sum + BigInt(invoice.owed) : sum),
    0n,
  );
  return (
    <Sheet
      here="books"
      viewer={viewer.data ? viewer.data.person : null}
      title="Books"
      notes={notes}
      titleBlock={{
        what: 'Invoices and what is owed on them',
        cells: [
          { label: 'Shop', value: shop?.name ?? '' },
          {
            label: 'Not billed yet',
            value: released ? String(released.length) : '',
            figures: true,
          },
          {
            label: 'Owed',
            value:
              shop && owed !== undefined
                ? `${moneyText(owed, shop.currency)} ${shop.currency}`
                : '',
            figures: true,
          },
        ],
      }}
    >
      {invoices && waiting && released && shop ? (
        <div className={styles.sections}>
          <ToBillList
            caption="Released, not billed yet"
            empty="Every released order has its invoice, or a draft of it."
            orders={released}
            currency={shop.currency}
          />
          <CoresToCredit />
          <AccountsList />
          <InvoiceList invoices={invoices} shop={shop} />
          {books.hasNextPage ? (
            <div>
              <Button
                busy={books.isFetchingNextPage ? 'Fetching' : undefined}
                onClick={() => void books.fetchNextPage()}
              >
                Older invoices
              </Button>
            </div>
          ) : null}
          <ToBillList
            caption="Still in work"
            empty="Nothing is in work."
            note="A draft shows what it comes to so far. It is issued when the aircraft is released."
            orders={waiting.filter(({ state }) => state !== 'released')}
            currency={shop.currency}
          />
          {viewer.data?.person.roles.includes('manager') ? <OurCostHours shop={shop} /> : null}
          <ForTheBookkeeper shop={shop} />
        </div>
      ) : problem ? (
        <NoAnswer
          head="No books to show"
          problem={problem}
          onAgain={() => void queries.refetchQueries()}
        />
      ) : (
        <Loading>Opening the books</Loading>
      )}
    </Sheet>
  );
}
