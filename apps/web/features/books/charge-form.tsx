'use client';

import { useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { ChargeKind } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { chargeWords, needsTitle } from '../quoting/charge-words.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import { AddOrderChargeDocument } from './charge-documents.ts';
import { typedAmount } from './invoice-figures.ts';

/** Something that is charged besides the quote, at a price. */
export function ChargeForm({
  orderId,
  currency,
  onBack,
}: {
  orderId: string;
  currency: string;
  onBack: () => void;
}) {
  const [typed, setTyped] = useState({ kind: 'freight' as ChargeKind, title: '', price: '' });
  const type = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const price = typedAmount(typed.price, currency);
  const adding = useDoing(
    async () =>
      (
        await request(AddOrderChargeDocument, {
          input: { orderId, kind: typed.kind, title: typed.title.trim() || null, price },
        })
      ).result,
    onBack,
  );
  return (
    <AskOnce
      question="It stands on the invoice beside the quote. What goes past the owner’s yes is not billed until it is agreed."
      yes="Charge it"
      busy={adding.isPending ? 'Recording' : undefined}
      onYes={() => {
        if (price !== null && (!needsTitle(typed.kind) || typed.title.trim().length >= 3))
          adding.mutate(undefined);
      }}
      onNo={onBack}
    >
      <div className={styles.fields}>
        <Select
          label="What for"
          value={typed.kind}
          onChange={(event) => type({ kind: event.currentTarget.value as ChargeKind })}
          options={(Object.keys(chargeWords) as ChargeKind[]).map((value) => ({
            value,
            words: chargeWords[value],
          }))}
        />
        <Field
          label="In words"
          hint={needsTitle(typed.kind) ? undefined : 'Left out: as above.'}
          maxLength={200}
          value={typed.title}
          onChange={(event) => type({ title: event.currentTarget.value })}
        />
        <Field
          label="Price, before tax"
          figures
          required
          inputMode="decimal"
          unit={currency}
          value={typed.price}
          wrong={
            typed.price !== '' && price === null
              ? `"${typed.price}" is no amount of ${currency}: needed are figures such as 1,240.00.`
              : undefined
          }
          onChange={(event) => type({ price: event.currentTarget.value })}
        />
      </div>
      {adding.error === null ? null : (
        <ErrorNote head="Not charged">{adding.error.message}</ErrorNote>
      )}
    </AskOnce>
  );
}
