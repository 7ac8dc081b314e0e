'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Money } from '../../components/Figure.tsx';
import { request } from '../../graphql/request.ts';
import styles from './books.module.css';
import { CreditCoresDocument } from './core-documents.ts';
import type { Invoice } from './invoice-documents.ts';
import { invoiceHref } from './invoice-words.ts';
import { paymentKey } from './payment-key.ts';

/** Old parts that came after they were billed, and the credit note that gives their charge back. */
export function CoresPart({ invoice }: { invoice: Invoice }) {
  const { id, coresToCredit, currency } = invoice;
  const router = useRouter();
  const queries = useQueryClient();
  const [clientEventId] = useState(paymentKey);
  const credit = useMutation({
    mutationFn: async () =>
      (await request(CreditCoresDocument, { input: { invoiceId: id, clientEventId } })).creditCores,
    onSuccess: async (note) => {
      if (note.__typename === 'Refusal') return;
      await queries.invalidateQueries();
      router.push(invoiceHref(note.id));
    },
  });
  if (coresToCredit.length === 0) return null;
  const refused =
    credit.data?.__typename === 'Refusal' ? credit.data.message : credit.error?.message;
  return (
    <section className={styles.list} aria-labelledby="cores">
      <h2 id="cores" className={styles.head}>
        Old parts that came back
      </h2>
      <ul>
        {coresToCredit.map(({ line, quantity, amount }) => (
          <li key={line.id}>
            {line.title.split(':')[0]}: {Number(quantity)} came after it was billed here.{' '}
            <Money minor={BigInt(amount)} currency={currency} /> {currency}, net, are to be given
            back.
          </li>
        ))}
      </ul>
      {refused === undefined ? null : <ErrorNote head="Not credited">{refused}</ErrorNote>}
      <div className={styles.ways} data-screen-only="">
        <Button
          kind="primary"
          busy={credit.isPending ? 'Crediting' : undefined}
          onClick={() => credit.mutate()}
        >
          Give it back with a credit note
        </Button>
      </div>
    </section>
  );
}
