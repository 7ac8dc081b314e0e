'use client';

import { useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { ContactEmail } from '../post/contact-email.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import { type Invoice, SendInvoiceDocument } from './invoice-documents.ts';
import { invoiceName } from './invoice-words.ts';

/** Mails an issued invoice to who pays; what becomes of the mail is in the Post. */
export function MailInvoice({ invoice, onBack }: { invoice: Invoice; onBack: () => void }) {
  const [queued, setQueued] = useState(false);
  const send = useDoing(
    async () =>
      (await request(SendInvoiceDocument, { input: { invoiceId: invoice.id } })).sendInvoice,
    () => setQueued(true),
  );
  const { contact } = invoice;
  if (queued)
    return (
      <p className={styles.second} role="status">
        {invoiceName(invoice)} is on its way to {contact.email}: see the{' '}
        <a href="/desk/post">Post</a>.
      </p>
    );
  return (
    <>
      <ContactEmail contact={contact} />
      {contact.email === null ? null : (
        <AskOnce
          question={`${invoiceName(invoice)} goes to ${contact.name}, ${contact.email}, as a PDF${invoice.eInvoiceLacks.length === 0 ? ' and as an e-invoice' : ''}.`}
          yes="Send it"
          busy={send.isPending ? 'Sending' : undefined}
          onYes={() => send.mutate(undefined)}
          onNo={onBack}
        >
          {send.error === null ? null : <ErrorNote head="Not sent">{send.error.message}</ErrorNote>}
        </AskOnce>
      )}
    </>
  );
}
