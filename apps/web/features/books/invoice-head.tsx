import { calendarDateText } from '../../lib/figures/dates.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';
import type { Invoice } from './invoice-documents.ts';
import { invoiceHref, invoiceName } from './invoice-words.ts';

/** Who bills whom, and for what. */
export function InvoiceHead({ invoice, shop }: { invoice: Invoice; shop: Viewer['shop'] }) {
  const { contact, order, credits, creditNotes, inPart } = invoice;
  const { aircraft } = order;
  const others = order.invoices.filter(
    (each) =>
      each.id !== invoice.id &&
      each.credits === null &&
      each.state === invoice.state &&
      each.sale?.id === invoice.sale?.id,
  );
  return (
    <section className={styles.parties} aria-label="From, to and for">
      <div>
        <h2>From</h2>
        <p>{shop.name}</p>
        <p className={styles.second}>{shop.place}</p>
      </div>
      <div>
        <h2>To</h2>
        <p>
          <a href={`/books/accounts/${contact.id}`}>{contact.name}</a>
        </p>
        {contact.email === null ? null : <p className={styles.second}>{contact.email}</p>}
        {contact.phone === null ? null : <p className={styles.second}>{contact.phone}</p>}
      </div>
      <div>
        <h2>For</h2>
        <p>
          <b className={styles.registration}>{aircraft.registration}</b> {order.title}
        </p>
        <p className={styles.second}>
          {aircraft.model.maker} {aircraft.model.name}, serial {aircraft.serial}, order{' '}
          {order.number}
        </p>
      </div>
      {invoice.sale === null ? null : (
        <p className={styles.link}>
          Sold on {calendarDateText(invoice.sale.soldOn)}: this is what was done until then. What
          follows is agreed with {invoice.sale.buyer.name}.
        </p>
      )}
      {others.length === 0 ? null : (
        <p className={styles.link}>
          {invoice.payerShare === null
            ? 'Others pay a part of this order: '
            : `A part of order ${order.number}${invoice.payerShare.reference ? `, ${invoice.payerShare.reference}` : ''}. The rest: `}
          {others.map((each, index) => (
            <span key={each.id}>
              {index > 0 ? ', ' : ''}
              <a href={invoiceHref(each.id)}>{invoiceName(each)}</a>, {each.contact.name}
            </span>
          ))}
          .
        </p>
      )}
      {credits === null && creditNotes.length === 0 ? null : (
        <p className={styles.link}>
          {credits === null ? null : (
            <>
              {inPart ? 'Gives back the charge for cores that came, on' : 'Takes back'}{' '}
              <a href={invoiceHref(credits.id)}>{invoiceName({ ...credits, credits: null })}</a>.
            </>
          )}
          {creditNotes.map((note) => (
            <span key={note.id}>
              {note.inPart ? 'The charge for cores that came was given back by' : 'Taken back by'}{' '}
              <a href={invoiceHref(note.id)}>credit note {note.number}</a>.
            </span>
          ))}
        </p>
      )}
    </section>
  );
}
