'use client';

import { useQuery } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { CalendarDate } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { request } from '../../graphql/request.ts';
import { DraftInvoiceDocument } from '../books/invoice-documents.ts';
import { invoiceHref, invoiceName } from '../books/invoice-words.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './owners.module.css';
import { type AircraftWithSales, SalesOfAircraftDocument } from './sales-documents.ts';
import { SellForm } from './sell-form.tsx';

type Sale = AircraftWithSales['sales'][number];

/** Whose an aircraft is and was; a sale is recorded here, and what the seller owes to date is billed. */
export function OwnersPart({
  aircraftId,
  timeZone,
  sells,
}: {
  aircraftId: string;
  timeZone: string;
  /** Whether the reader may record a sale. */
  sells: boolean;
}) {
  const [open, setOpen] = useState(false);
  const asked = useQuery({
    queryKey: ['sales', aircraftId],
    queryFn: async () => (await request(SalesOfAircraftDocument, { id: aircraftId })).node,
  });
  if (asked.error !== null)
    return <ErrorNote head="No owners to show">{asked.error.message}</ErrorNote>;
  const aircraft = asked.data?.__typename === 'Aircraft' ? asked.data : null;
  if (aircraft === null) return null;
  const owners = aircraft.contacts.filter(({ capacity }) => capacity === 'owner');
  return (
    <section className={styles.part} aria-labelledby="owners">
      <h2 id="owners">Owners</h2>
      <p>
        {owners.length === 0
          ? 'Nobody is kept as its owner.'
          : `It is owned by ${owners.map(({ contact }) => contact.name).join(' and ')}.`}
      </p>
      {aircraft.sales.length === 0 ? null : (
        <PartsList
          caption="How it changed hands"
          columns={[
            { key: 'on', head: 'Sold on', kind: 'figure' },
            { key: 'who', head: 'From and to' },
            { key: 'bill', head: 'Billed to the seller' },
          ]}
          rows={aircraft.sales.map((sale) => ({
            key: sale.id,
            note: sale.note,
            cells: {
              on: <CalendarDate date={sale.soldOn} />,
              who: `${sale.seller.name} to ${sale.buyer.name}`,
              bill: <SellersBills sale={sale} mayBill={sells} />,
            },
          }))}
        />
      )}
      <p className={styles.second}>Its records go with the aircraft at its sale (14 CFR 91.419).</p>
      {!sells ? null : open ? (
        <SellForm aircraft={aircraft} timeZone={timeZone} onBack={() => setOpen(false)} />
      ) : (
        <div data-screen-only="">
          <Button onClick={() => setOpen(true)}>It was sold</Button>
        </div>
      )}
    </section>
  );
}

function SellersBills({ sale, mayBill }: { sale: Sale; mayBill: boolean }) {
  const router = useRouter();
  const drafting = useDoing(async (orderId: string) => {
    const { draftInvoice } = await request(DraftInvoiceDocument, {
      input: { orderId, saleId: sale.id },
    });
    if (draftInvoice.__typename === 'Invoice') router.push(invoiceHref(draftInvoice.id));
    return draftInvoice;
  });
  if (sale.orders.length === 0) return 'no order went on';
  return (
    <>
      {sale.orders.map(({ id, number, title }) => {
        const standing = sale.invoices.filter(
          (invoice) =>
            invoice.order.id === id && invoice.credits === null && invoice.state !== 'credited',
        );
        return (
          <span key={id}>
            <a href={`/desk/orders/${id}`}>
              Order {number}, {title}
            </a>
            {': '}
            {standing.map((invoice) => (
              <a key={invoice.id} href={invoiceHref(invoice.id)}>
                {invoiceName(invoice)}{' '}
              </a>
            ))}
            {standing.length > 0 ? null : mayBill ? (
              <span data-screen-only="">
                <Button
                  kind="plain"
                  busy={drafting.isPending ? 'Drafting' : undefined}
                  onClick={() => drafting.mutate(id)}
                >
                  Bill to date
                </Button>
              </span>
            ) : (
              'not billed yet'
            )}{' '}
          </span>
        );
      })}
      {drafting.error === null ? null : (
        <ErrorNote head="Not drafted">{drafting.error.message}</ErrorNote>
      )}
    </>
  );
}
