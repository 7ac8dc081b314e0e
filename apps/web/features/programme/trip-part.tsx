'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { Counter } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import styles from './programme.module.css';
import { dueWords, stateWords } from './programme-words.ts';
import { DueOnTripDocument, type TripLine } from './trip-documents.ts';
import { hundredthsOf } from './typed-hours.ts';

/** What falls due before the aircraft is back, if it goes. Nothing is kept. */
export function TripPart({
  aircraftId,
  registration,
  counted,
}: {
  aircraftId: string;
  registration: string;
  /** What its due items count. */
  counted: readonly Counter[];
}) {
  const [departOn, setDepartOn] = useState('');
  const [returnOn, setReturnOn] = useState('');
  const [hours, setHours] = useState('');
  const [typedCounts, setTypedCounts] = useState(emptyCounts);
  const ask = useMutation({
    mutationFn: async () => {
      const { node } = await request(DueOnTripDocument, {
        ...{ id: aircraftId, departOn, returnOn, hundredths: hundredthsOf(hours) },
        counts: countsTyped(typedCounts) ?? null,
      });
      return node?.__typename === 'Aircraft' ? node.dueOnTrip : [];
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    ask.mutate();
  };
  const typed = (set: (value: string) => void) => ({
    onChange: (event: { currentTarget: { value: string } }) => {
      set(event.currentTarget.value);
      ask.reset();
    },
  });
  return (
    <form className={styles.form} onSubmit={submit} aria-label="If it goes on a trip">
      <div className={styles.pair}>
        <Field label="Leaves on" type="date" required value={departOn} {...typed(setDepartOn)} />
        <Field label="Back on" type="date" required value={returnOn} {...typed(setReturnOn)} />
        <Field
          label="Hours flown until then"
          required
          inputMode="decimal"
          value={hours}
          {...typed(setHours)}
        />
        <CountFields
          typed={typedCounts}
          onTyped={(next) => {
            setTypedCounts(next);
            ask.reset();
          }}
          only={counted}
          label={(counter) => `${counter[0]?.toUpperCase()}${counter.slice(1)} until then`}
        />
      </div>
      {ask.error === null ? null : <ErrorNote head="Not reckoned">{ask.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={departOn === '' || returnOn === '' || hours.trim() === ''}
          busy={ask.isPending ? 'Reckoning' : undefined}
        >
          What falls due before it is back
        </Button>
      </div>
      <div role="status">
        {ask.data === undefined ? null : <Answer lines={ask.data} registration={registration} />}
      </div>
    </form>
  );
}

function Answer({ lines, registration }: { lines: readonly TripLine[]; registration: string }) {
  if (lines.length === 0)
    return <p>Nothing that is entered here falls due before {registration} is back.</p>;
  return (
    <>
      <p>Due before it is back, as entered here; nothing of this is kept.</p>
      <ol className={styles.lines}>
        {lines.map(({ line, beforeDeparture, now }) => (
          <li key={line.itemId} className={styles.line}>
            <p>{line.title}</p>
            <p className={styles.state} data-state={line.state ?? 'unknown'}>
              {line.state == null ? 'cannot be reckoned' : stateWords[line.state]}
            </p>
            <p className={styles.figures}>{dueWords(line)}</p>
            <p className={styles.figures}>
              {now === 'overdue'
                ? 'past due today'
                : beforeDeparture
                  ? 'before it leaves'
                  : 'while it is away'}
            </p>
            <p className={styles.because}>{line.because}</p>
          </li>
        ))}
      </ol>
    </>
  );
}
