'use client';

import { formatAmount, currency as knownCurrency, minor } from '@fairlead/money';
import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { dayOf, instantOf } from '../../lib/shop-time.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import styles from './books.module.css';
import { type Invoice, RecordPaymentDocument } from './invoice-documents.ts';
import { typedAmount } from './invoice-figures.ts';
import { paymentKey } from './payment-key.ts';

/** Money that came in. One opening of this form is one payment, however often it is sent. */
export function PaymentForm({
  invoice,
  shop,
  onBack,
  onRecorded,
}: {
  invoice: Invoice;
  shop: Viewer['shop'];
  onBack: () => void;
  onRecorded: () => Promise<unknown>;
}) {
  const today = dayOf(new Date().toISOString(), shop.timeZone);
  const form = useRef<HTMLFormElement>(null);
  const [key] = useState(paymentKey);
  const [typed, setTyped] = useState(() =>
    formatAmount(minor(BigInt(invoice.owed)), knownCurrency(invoice.currency)),
  );
  const [method, setMethod] = useState('bank transfer');
  const [paidOn, setPaidOn] = useState(today);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const amount = typedAmount(typed, invoice.currency);

  const recording = useMutation({
    mutationFn: async (minorUnits: string) => {
      const input = {
        invoiceId: invoice.id,
        amount: minorUnits,
        method,
        clientEventId: key,
        // Of an earlier day only the day is known: its middle stands for it.
        ...(paidOn === today ? {} : { paidAt: instantOf(`${paidOn}T12:00`, shop.timeZone) }),
      };
      return (await request(RecordPaymentDocument, { input })).recordPayment;
    },
    onSuccess: async (recorded) => {
      if (recorded.__typename !== 'Refusal') await onRecorded();
    },
  });
  const refused = recording.data?.__typename === 'Refusal' ? recording.data : null;
  const sentence = refused?.message ?? recording.error?.message;

  function submit(event: FormEvent) {
    event.preventDefault();
    if (amount !== null) recording.mutate(amount);
  }

  return (
    <form
      ref={form}
      className={styles.ask}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !recording.isPending) onBack();
      }}
    >
      <p>
        Owed: {moneyText(BigInt(invoice.owed), invoice.currency)} {invoice.currency}. A payment that
        is recorded is never changed.
      </p>
      <div className={styles.fields}>
        <Field
          label="Amount"
          figures
          inputMode="decimal"
          autoComplete="off"
          required
          unit={invoice.currency}
          value={typed}
          wrong={
            amount === null
              ? `"${typed}" is no amount of ${invoice.currency}: needed are figures such as 1,240.00.`
              : undefined
          }
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <Field
          label="By which way"
          required
          maxLength={60}
          value={method}
          onChange={(event) => setMethod(event.currentTarget.value)}
        />
        <Field
          label="Came on"
          type="date"
          required
          max={today}
          value={paidOn}
          onChange={(event) => setPaidOn(event.currentTarget.value)}
        />
      </div>
      {sentence === undefined ? null : <ErrorNote head="Not recorded">{sentence}</ErrorNote>}
      <div className={styles.ways}>
        <Button
          kind="primary"
          type="submit"
          disabled={amount === null}
          busy={recording.isPending ? 'Recording' : undefined}
        >
          Record it
        </Button>
        <Button disabled={recording.isPending} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
