'use client';

import { useMutation } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { Button, ButtonLink } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { eInvoiceHref, paperHref } from '../../lib/paper-href.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { AddressForm } from './address-form.tsx';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import { EInvoiceNeeds } from './e-invoice-needs.tsx';
import { CreditInvoiceDocument, DraftInvoiceDocument, type Invoice } from './invoice-documents.ts';
import { invoiceHref, invoiceName } from './invoice-words.ts';
import { IssueForm } from './issue-form.tsx';
import { MailInvoice } from './mail-invoice.tsx';
import { PaymentForm } from './payment-form.tsx';

type Open = 'issue' | 'pay' | 'credit' | 'address' | 'mail' | null;

/** What can be done with an invoice in its state. Nothing here is printed. */
export function InvoiceActions({
  invoice,
  shop,
  onDone,
}: {
  invoice: Invoice;
  shop: Viewer['shop'];
  onDone: () => Promise<unknown>;
}) {
  const router = useRouter();
  const [open, setOpen] = useState<Open>(null);
  const section = useRef<HTMLElement>(null);
  /** Closes what is open and gives the keyboard back to the button that opened it. */
  const close = () => {
    section.current?.querySelector<HTMLElement>('[aria-expanded="true"]')?.focus();
    setOpen(null);
  };
  const redraft = useMutation({
    mutationFn: async () =>
      (
        await request(DraftInvoiceDocument, {
          input: { orderId: invoice.order.id, saleId: invoice.sale?.id ?? null },
        })
      ).draftInvoice,
    onSuccess: async (drafted) => {
      if (drafted.__typename === 'Refusal') return;
      await onDone();
      if (drafted.id !== invoice.id) router.push(invoiceHref(drafted.id));
    },
  });
  const credit = useMutation({
    mutationFn: async () =>
      (await request(CreditInvoiceDocument, { input: { invoiceId: invoice.id } })).creditInvoice,
    onSuccess: async (note) => {
      if (note.__typename === 'Refusal') return;
      await onDone();
      router.push(invoiceHref(note.id));
    },
  });
  const refused =
    redraft.data?.__typename === 'Refusal' ? redraft.data.message : redraft.error?.message;
  const notCredited =
    credit.data?.__typename === 'Refusal' ? credit.data.message : credit.error?.message;
  const draft = invoice.state === 'draft';
  const stands = invoice.state === 'issued' && invoice.credits === null;
  const ready =
    invoice.sale !== null || invoice.order.state === 'released' || invoice.order.state === 'closed';
  const owes = stands && BigInt(invoice.owed) > 0n;

  const way = (which: Exclude<Open, null>, words: string, kind: 'primary' | 'outline') => (
    <Button
      kind={open === null ? kind : 'outline'}
      aria-expanded={open === which}
      onClick={() => setOpen(open === which ? null : which)}
    >
      {words}
    </Button>
  );
  return (
    <section
      ref={section}
      className={styles.actions}
      aria-label="What can be done"
      data-screen-only
    >
      <div className={styles.ways}>
        {draft && ready ? way('issue', 'Issue', 'primary') : null}
        {owes ? way('pay', 'Record a payment', 'primary') : null}
        {draft || invoice.state === 'credited' ? (
          <Button
            busy={redraft.isPending ? 'Drafting' : undefined}
            onClick={() => redraft.mutate()}
          >
            {draft ? 'Draft again' : 'Bill the order again'}
          </Button>
        ) : null}
        {draft ? null : way('mail', 'Send by e-mail', 'outline')}
        {stands ? way('credit', 'Credit', 'outline') : null}
        {draft ? way('address', 'Payer’s address', 'outline') : null}
        <Button onClick={() => window.print()}>Print</Button>
        <ButtonLink href={paperHref('invoice', invoice.id)}>PDF, A4</ButtonLink>
        <ButtonLink href={paperHref('invoice', invoice.id, 'letter')}>PDF, Letter</ButtonLink>
        {draft || invoice.eInvoiceLacks.length > 0 ? null : (
          <ButtonLink href={eInvoiceHref(invoice.id)}>E-invoice, XML</ButtonLink>
        )}
      </div>
      {draft && !ready ? (
        <p className={styles.second}>
          It can be issued when {invoice.order.aircraft.registration} is released.
        </p>
      ) : null}
      <EInvoiceNeeds invoice={invoice} />
      {refused === undefined ? null : <ErrorNote head="Not drafted">{refused}</ErrorNote>}
      {open === 'issue' ? (
        <IssueForm invoice={invoice} shop={shop} onBack={close} onIssued={onDone} />
      ) : null}
      {open === 'address' ? (
        <AddressForm
          contact={invoice.contact}
          onBack={close}
          onSaved={async () => {
            close();
            await onDone();
          }}
        />
      ) : null}
      {open === 'mail' ? <MailInvoice invoice={invoice} onBack={close} /> : null}
      {open === 'pay' ? (
        <PaymentForm
          invoice={invoice}
          shop={shop}
          onBack={close}
          onRecorded={async () => {
            close();
            await onDone();
          }}
        />
      ) : null}
      {open === 'credit' ? (
        <AskOnce
          question={`${invoiceName(invoice)} is taken back whole, by a credit note with a number of its own. Neither can be changed afterwards. The order can then be billed again.`}
          yes="Credit it"
          busy={credit.isPending ? 'Crediting' : undefined}
          onYes={() => credit.mutate()}
          onNo={close}
        >
          {notCredited === undefined ? null : (
            <ErrorNote head="Not credited">{notCredited}</ErrorNote>
          )}
        </AskOnce>
      ) : null}
    </section>
  );
}
