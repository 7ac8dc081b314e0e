'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Figure, Money } from '../../components/Figure.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { WhatToOrderQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { partHref } from './addresses.ts';
import { DraftPurchaseForm, type WantedLine } from './draft-purchase-form.tsx';
import {
  type PartToOrder,
  type PurchaseInList,
  WhatToOrderDocument,
} from './purchase-documents.ts';
import { purchaseHref, purchaseWords } from './purchase-words.ts';
import styles from './stores.module.css';
import { StoresSheets } from './stores-sheets.tsx';

const notes = [
  'A part is to be ordered when what is free, within its date, and what is on order are together fewer than its reorder point.',
  'Purchase orders are numbered without gaps; one that is cancelled keeps its number.',
];

/** What fell below its reorder point, and what was ordered. */
export function OrdersSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['whatToOrder'],
    queryFn: () => request(WhatToOrderDocument),
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title="What to order"
      notes={notes}
      titleBlock={{
        what: 'What runs low, and what is on order',
        cells: [
          { label: 'To order', value: data?.partsToOrder.length ?? '', figures: true },
          {
            label: 'Expected',
            value:
              data?.purchaseOrders.edges.filter(({ node }) =>
                ['sent', 'received_in_part'].includes(node.state),
              ).length ?? '',
            figures: true,
          },
          { label: 'Date', value: shop ? dayText(new Date(), shop.timeZone) : '', figures: true },
          { label: 'Shop', value: shop?.name ?? '', span: 'whole' },
        ],
      }}
    >
      {data && viewer.data ? (
        <Drawn data={data} viewer={viewer.data} />
      ) : problem ? (
        <NoAnswer
          head="Nothing to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
        />
      ) : (
        <Loading>Looking for what runs low</Loading>
      )}
    </Sheet>
  );
}

/** A draft with one part, from whom it came last and at what it cost then. */
const startOf = ({ part, missing }: PartToOrder): { supplier: string; lines: WantedLine[] } => {
  const last = part.lots.edges[0]?.node;
  return {
    supplier: last?.supplier ?? '',
    lines: [{ part, quantity: missing, unitCost: last?.unitCost ?? '' }],
  };
};

function Drawn({ data, viewer: { shop, person } }: { data: WhatToOrderQuery; viewer: Viewer }) {
  const [start, setStart] = useState<ReturnType<typeof startOf> | null>(null);
  const orders = person.roles.some((role) => role !== 'mechanic');
  const purchases = data.purchaseOrders.edges.map(({ node }) => node);
  return (
    <div className={styles.sections}>
      <StoresSheets here="orders" />
      {start !== null ? (
        <DraftPurchaseForm
          key={start.lines[0]?.part.id ?? 'empty'}
          start={start}
          currency={shop.currency}
          today={dayOf(new Date().toISOString(), shop.timeZone)}
          onLeave={() => setStart(null)}
        />
      ) : orders ? (
        <div className={styles.ways} data-screen-only="">
          <Button kind="primary" onClick={() => setStart({ supplier: '', lines: [] })}>
            Draft a purchase order
          </Button>
        </div>
      ) : null}
      {data.partsToOrder.length === 0 ? (
        <p className={styles.second}>
          Nothing is below its reorder point. A part’s own sheet says from which point on it is
          watched.
        </p>
      ) : (
        <ToOrder
          parts={data.partsToOrder}
          {...(orders && { onOrder: (part: PartToOrder) => setStart(startOf(part)) })}
        />
      )}
      {purchases.length === 0 ? (
        <Empty>Nothing was ordered yet: purchase orders stand in this list.</Empty>
      ) : (
        <Purchases purchases={purchases} timeZone={shop.timeZone} />
      )}
    </div>
  );
}

function ToOrder({
  parts,
  onOrder,
}: {
  parts: readonly PartToOrder[];
  /** Left out: whoever reads orders nothing. */
  onOrder?: (part: PartToOrder) => void;
}) {
  return (
    <PartsList
      caption="Below the reorder point"
      columns={[
        { key: 'part', head: 'Part' },
        { key: 'free', head: 'Free', kind: 'figure' },
        { key: 'ordered', head: 'On order', kind: 'figure' },
        { key: 'point', head: 'Reorder point', kind: 'figure' },
        { key: 'missing', head: 'Missing', kind: 'figure' },
      ]}
      rows={parts.map((each) => {
        const { part, free, onOrder: ordered, missing } = each;
        return {
          key: part.id,
          cells: {
            part: <SheetLink href={partHref(part.id)}>{part.title}</SheetLink>,
            free: <Figure text={free} />,
            ordered: <Figure text={ordered} />,
            point: <Figure text={part.reorderPoint ?? ''} />,
            missing: (
              <span className={styles.left}>
                <Figure text={missing} unit={part.unit} />
                {onOrder === undefined ? null : (
                  <span data-screen-only="">
                    <Button aria-label={`Order ${part.title}`} onClick={() => onOrder(each)}>
                      Order
                    </Button>
                  </span>
                )}
              </span>
            ),
          },
          note: part.number,
        };
      })}
    />
  );
}

function Purchases({
  purchases,
  timeZone,
}: {
  purchases: readonly PurchaseInList[];
  timeZone: string;
}) {
  return (
    <PartsList
      caption="Purchase orders, newest first"
      columns={[
        { key: 'order', head: 'Order' },
        { key: 'what', head: 'What' },
        { key: 'state', head: 'How it stands' },
        { key: 'total', head: 'Net', kind: 'figure' },
      ]}
      rows={purchases.map(
        ({ id, number, supplier, state, expectedOn, total, currency, draftedAt, lines }) => ({
          key: id,
          cells: {
            order: (
              <SheetLink href={purchaseHref(id)}>
                {number}, {supplier}
              </SheetLink>
            ),
            what: lines.map(({ part }) => part.title).join(', '),
            state: `${purchaseWords[state]}${
              expectedOn !== null && ['sent', 'received_in_part'].includes(state)
                ? `, expected ${calendarDateText(expectedOn)}`
                : ''
            }`,
            total: <Money minor={BigInt(total)} currency={currency} showCurrency />,
          },
          note: `drafted ${dayText(draftedAt, timeZone)}`,
        }),
      )}
    />
  );
}
