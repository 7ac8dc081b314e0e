'use client';

import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { dayOf } from '../../lib/shop-time.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { AskOnce } from './ask-once.tsx';
import { type Invoice, IssueInvoiceDocument } from './invoice-documents.ts';

const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString();

/** Issues a draft, once it has been said that this cannot be undone. */
export function IssueForm({
  invoice,
  shop,
  onBack,
  onIssued,
}: {
  invoice: Invoice;
  shop: Viewer['shop'];
  onBack: () => void;
  onIssued: () => Promise<unknown>;
}) {
  const [dueOn, setDueOn] = useState(() => dayOf(inDays(30), shop.timeZone));
  const issuing = useMutation({
    mutationFn: async () => {
      const input = { invoiceId: invoice.id, ...(dueOn === '' ? {} : { dueOn }) };
      return (await request(IssueInvoiceDocument, { input })).issueInvoice;
    },
    onSuccess: async (issued) => {
      if (issued.__typename === 'Refusal') return;
      // The question goes with the draft; the keyboard goes on from the head of the sheet.
      document.getElementById('sheet')?.focus();
      await onIssued();
    },
  });
  const refused = issuing.data?.__typename === 'Refusal' ? issuing.data : null;
  const sentence = refused?.message ?? issuing.error?.message;
  const amount = `${moneyText(BigInt(invoice.gross), invoice.currency)} ${invoice.currency}`;
  return (
    <AskOnce
      question={`Issue ${amount} to ${invoice.contact.name}? It gets the next number and its link in the chain, and cannot be changed afterwards, only taken back whole by a credit note.`}
      yes="Issue for good"
      busy={issuing.isPending ? 'Issuing' : undefined}
      onYes={() => issuing.mutate()}
      onNo={onBack}
    >
      <Field
        label="To be paid by"
        type="date"
        value={dueOn}
        wrong={refused?.field === 'dueOn' ? refused.message : undefined}
        onChange={(event) => setDueOn(event.currentTarget.value)}
      />
      {sentence === undefined || refused?.field === 'dueOn' ? null : (
        <ErrorNote head="Not issued">{sentence}</ErrorNote>
      )}
    </AskOnce>
  );
}
