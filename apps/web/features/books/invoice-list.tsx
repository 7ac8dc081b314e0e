import { Empty } from '../../components/Empty.tsx';
import { CalendarDate, Day, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { dayOf } from '../../lib/shop-time.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';
import type { InvoiceInBooks } from './invoice-documents.ts';
import { invoiceHref, invoiceName, stateWords } from './invoice-words.ts';

/** Drafts first, then what is owed, then what is settled. */
export function InvoiceList({
  invoices,
  shop,
}: {
  invoices: readonly InvoiceInBooks[];
  shop: Viewer['shop'];
}) {
  if (invoices.length === 0) {
    return (
      <section>
        <h2 className={styles.head}>Invoices</h2>
        <Empty>No invoice has been drafted yet.</Empty>
      </section>
    );
  }
  const drafts = invoices.filter(({ state }) => state === 'draft');
  const open = invoices.filter(({ owed, state }) => state !== 'draft' && BigInt(owed) !== 0n);
  const settled = invoices.filter(({ owed, state }) => state !== 'draft' && BigInt(owed) === 0n);
  return (
    <>
      <Part caption="Drafts" invoices={drafts} shop={shop} />
      <Part caption="Owed" invoices={open} shop={shop} />
      <Part caption="Settled" invoices={settled} shop={shop} />
    </>
  );
}

function Part({
  caption,
  invoices,
  shop,
}: {
  caption: string;
  invoices: readonly InvoiceInBooks[];
  shop: Viewer['shop'];
}) {
  if (invoices.length === 0) return null;
  const drafts = invoices.every(({ state }) => state === 'draft');
  return (
    <PartsList
      caption={caption}
      columns={[
        { key: 'name', head: 'Invoice' },
        { key: 'payer', head: 'Payer' },
        { key: 'date', head: drafts ? 'Drafted' : 'Issued', kind: 'figure' },
        ...(drafts ? [] : [{ key: 'due', head: 'Due', kind: 'figure' as const }]),
        { key: 'gross', head: `With tax, ${shop.currency}`, kind: 'figure' },
        ...(drafts
          ? []
          : [{ key: 'owed', head: `Owed, ${shop.currency}`, kind: 'figure' as const }]),
      ]}
      rows={invoices.map((invoice) => ({
        key: invoice.id,
        note: (
          <>
            <b className={styles.registration}>{invoice.order.aircraft.registration}</b>{' '}
            {invoice.order.title}
          </>
        ),
        cells: {
          name: (
            <>
              <a className={styles.name} href={invoiceHref(invoice.id)}>
                {invoiceName(invoice)}
              </a>{' '}
              {invoice.state === 'draft' ? null : stateWords(invoice, BigInt(invoice.owed))}
            </>
          ),
          payer: invoice.contact.name,
          date: <Day at={invoice.issuedAt ?? invoice.draftedAt} timeZone={shop.timeZone} />,
          due: dueOf(invoice, shop.timeZone),
          gross: <Money minor={BigInt(invoice.gross)} currency={invoice.currency} />,
          owed: <Money minor={BigInt(invoice.owed)} currency={invoice.currency} />,
        },
      }))}
    />
  );
}

/** The day it is to be paid by; said in ochre once that day has passed and money is owed. */
function dueOf({ dueOn, owed }: InvoiceInBooks, timeZone: string) {
  if (dueOn === null) return null;
  const overdue = BigInt(owed) > 0n && dayOf(new Date().toISOString(), timeZone) > dueOn;
  return (
    <>
      <CalendarDate date={dueOn} />
      {overdue ? <span className={styles.overdue}> overdue</span> : null}
    </>
  );
}
