'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { againstText } from './issue-against.ts';
import { PurchaseActions } from './purchase-actions.tsx';
import { type Purchase, PurchaseSheetDocument } from './purchase-documents.ts';
import { channelWords, purchaseWords } from './purchase-words.ts';
import styles from './stores.module.css';
import { StoresSheets } from './stores-sheets.tsx';

const notes = [
  'What comes is received against its line, with batch or serial number and release certificate; what is beyond the order is a delivery of its own.',
];

/** One purchase order: what is ordered, how it went, and what came of it. */
export function PurchaseSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const { data, error } = useQuery({
    queryKey: ['purchase', id],
    queryFn: async () => (await request(PurchaseSheetDocument, { id })).node,
  });
  const problem = viewer.error ?? error;
  const shop = viewer.data?.shop;
  const purchase = data?.__typename === 'PurchaseOrder' ? data : undefined;
  const all = <SheetLink href="/stores/orders">All purchase orders</SheetLink>;
  return (
    <Sheet
      here="stores"
      viewer={viewer.data?.person ?? null}
      title={purchase === undefined ? 'Purchase order' : `Purchase order ${purchase.number}`}
      notes={notes}
      titleBlock={{
        what: 'What is ordered of a supplier',
        cells:
          purchase === undefined || shop === undefined
            ? []
            : [
                { label: 'Order', value: purchase.number, figures: true },
                { label: 'Stands', value: purchaseWords[purchase.state] },
                {
                  label: `Net, ${purchase.currency}`,
                  value: moneyText(BigInt(purchase.total), purchase.currency),
                  figures: true,
                },
                { label: 'Supplier', value: purchase.supplier, span: 'half' },
                { label: 'Shop', value: shop.name, span: 'half' },
              ],
      }}
    >
      {purchase && viewer.data ? (
        <Drawn purchase={purchase} viewer={viewer.data} />
      ) : problem ? (
        <NoAnswer
          head="No purchase order to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={all}
        />
      ) : data === undefined ? (
        <Loading>Fetching the purchase order</Loading>
      ) : (
        <ErrorNote head="No purchase order to show" action={all}>
          There is no such purchase order in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

function Drawn({ purchase, viewer: { shop, person } }: { purchase: Purchase; viewer: Viewer }) {
  const { supplier, supplierEmail, expectedOn, note, state, draftedAt, by, events } = purchase;
  return (
    <div className={styles.sections}>
      <StoresSheets />
      <dl className={styles.facts}>
        <div>
          <dt>Supplier</dt>
          <dd>
            {supplier}
            {supplierEmail === '' ? null : <span className={styles.second}>{supplierEmail}</span>}
          </dd>
        </div>
        <div>
          <dt>Stands</dt>
          <dd>{purchaseWords[state]}</dd>
        </div>
        <div>
          <dt>Expected</dt>
          <dd>{expectedOn === null ? 'nobody said' : calendarDateText(expectedOn)}</dd>
        </div>
        {note === '' ? null : (
          <div>
            <dt>Told besides</dt>
            <dd>{note}</dd>
          </div>
        )}
      </dl>
      <PurchaseActions
        purchase={purchase}
        today={dayOf(new Date().toISOString(), shop.timeZone)}
        orders={person.roles.some((role) => role !== 'mechanic')}
        who={person.name}
      />
      <section className={styles.part} aria-labelledby="happened">
        <h2 id="happened" className={styles.caption}>
          What happened to it
        </h2>
        <ul className={styles.documents}>
          <li>
            Drafted by {by.name} on {dayText(draftedAt, shop.timeZone)}
          </li>
          {events.map(({ id, kind, channel, reason, despite, at, by: who }) => (
            <li key={id}>
              {kind === 'sent'
                ? `Sent ${channel === null ? '' : channelWords[channel]}`
                : 'Cancelled'}{' '}
              by {who.name}, {dayAndTimeText(at, shop.timeZone)}
              {despite.length === 0 ? '' : `, ${againstText(despite)}`}
              {reason === '' ? '' : `: “${reason}”`}
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
