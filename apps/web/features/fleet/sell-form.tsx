'use client';

import { useState } from 'react';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { AskOnce } from '../books/ask-once.tsx';
import styles from '../books/books.module.css';
import { ContactChoice, isChosen } from '../books/contact-choice.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import { type AircraftWithSales, SellAircraftDocument } from './sales-documents.ts';

/** To whom it was sold and when, after what follows from it. */
export function SellForm({
  aircraft,
  timeZone,
  onBack,
}: {
  aircraft: AircraftWithSales;
  timeZone: string;
  onBack: () => void;
}) {
  const today = dayOf(new Date().toISOString(), timeZone);
  const [typed, setTyped] = useState({ buyerId: '', soldOn: today, note: '' });
  const type = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const owners = aircraft.contacts.filter(({ capacity }) => capacity === 'owner');
  const selling = useDoing(
    async () =>
      (await request(SellAircraftDocument, { input: { aircraftId: aircraft.id, ...typed } }))
        .result,
    onBack,
  );
  const chosen = isChosen(typed.buyerId) && typed.soldOn !== '';
  return (
    <AskOnce
      question={`${aircraft.registration} was sold. What ${owners[0]?.contact.name ?? 'the seller'} agreed to lapses and their private links are taken back; work that is not done is put off until the new owner says yes; what was done until then is billed to the seller. This is never changed afterwards.`}
      yes="It was sold"
      busy={selling.isPending ? 'Recording' : undefined}
      onYes={() => {
        if (chosen) selling.mutate(undefined);
      }}
      onNo={onBack}
    >
      <div className={styles.fields}>
        <ContactChoice
          label="The new owner"
          value={typed.buyerId}
          without={owners.map(({ contact }) => contact.id)}
          onChoose={(buyerId) => type({ buyerId })}
        />
        <Field
          label="Sold on"
          type="date"
          required
          max={today}
          value={typed.soldOn}
          onChange={(event) => type({ soldOn: event.currentTarget.value })}
        />
        <Field
          label="In a few words"
          maxLength={500}
          value={typed.note}
          onChange={(event) => type({ note: event.currentTarget.value })}
        />
      </div>
      {isChosen(typed.buyerId) ? null : (
        <p className={styles.second}>Choose the new owner first, or add them.</p>
      )}
      {selling.error === null ? null : (
        <ErrorNote head="Not recorded">{selling.error.message}</ErrorNote>
      )}
    </AskOnce>
  );
}
