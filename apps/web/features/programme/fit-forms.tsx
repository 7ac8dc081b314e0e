'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { FitComponentInput, RemoveComponentInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import { useHandling, WorkSelect } from './handling-fields.tsx';
import {
  FitComponentDocument,
  type FittedPart,
  RemoveComponentDocument,
  type ShelfPart,
  type WorkHere,
} from './part-documents.ts';
import styles from './programme.module.css';
import { hundredthsOf } from './typed-hours.ts';

const nameOf = ({ title, partNumber, serial }: ShelfPart) =>
  `${title}, ${partNumber}, serial ${serial}`;

/** When, and at what time of the aircraft; what stays empty is today, as it was read last. */
function useMoment() {
  const [on, setOn] = useState('');
  const [hours, setHours] = useState('');
  const [typed, setTyped] = useState(emptyCounts);
  const counts = countsTyped(typed);
  return {
    given: {
      ...(on === '' ? {} : { on }),
      ...(hours.trim() === '' ? {} : { tisHundredths: hundredthsOf(hours) }),
      ...(counts ? { counts } : {}),
    },
    fields: (
      <>
        <Field
          label="On"
          hint="Left empty: today"
          type="date"
          value={on}
          onChange={(event) => setOn(event.currentTarget.value)}
        />
        <Field
          label="Aircraft’s time in service then"
          hint="Left empty: as it was read last"
          inputMode="decimal"
          value={hours}
          onChange={(event) => setHours(event.currentTarget.value)}
        />
        {/* Of another day or time than the last reading nobody knows them but who writes it down. */}
        {on === '' && hours.trim() === '' ? null : (
          <CountFields
            typed={typed}
            onTyped={setTyped}
            label={(counter) => `Aircraft’s ${counter} then, where counted`}
          />
        )}
      </>
    ),
  };
}

/** Fits a part that lies on the shelf. */
export function FitForm({
  aircraftId,
  shelf,
  fitted,
  work,
}: {
  aircraftId: string;
  work: readonly WorkHere[];
  shelf: readonly ShelfPart[];
  fitted: readonly FittedPart[];
}) {
  const [componentId, setComponentId] = useState('');
  const [position, setPosition] = useState('');
  const [parentId, setParentId] = useState('');
  const [itemId, setItemId] = useState('');
  const moment = useMoment();
  const fit = useDoing(
    async (input: FitComponentInput) =>
      (await request(FitComponentDocument, { input })).fitComponent,
    () => {
      setComponentId('');
      setPosition('');
      setParentId('');
      setItemId('');
    },
  );
  if (shelf.length === 0)
    return (
      <p>
        No part lies on the shelf. <a href="/records/parts">Enter one, or take one off elsewhere</a>
      </p>
    );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    fit.mutate({
      ...{ aircraftId, componentId, position, ...moment.given },
      ...(parentId === '' ? {} : { parentId }),
      ...(itemId === '' ? {} : { itemId }),
    });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Fit a part">
      <div className={styles.pair}>
        <Select
          label="Which part"
          options={[
            { value: '', words: 'choose' },
            ...shelf.map((part) => ({ value: part.id, words: nameOf(part) })),
          ]}
          value={componentId}
          onChange={(event) => setComponentId(event.currentTarget.value)}
        />
        <Field
          label="Where"
          hint="engine, left, red …"
          required
          maxLength={60}
          value={position}
          onChange={(event) => setPosition(event.currentTarget.value)}
        />
        <Select
          label="On which part"
          options={[
            { value: '', words: 'on the aircraft itself' },
            ...fitted.map(({ id, title, position: place }) => ({
              value: id,
              words: `${title}, ${place}`,
            })),
          ]}
          value={parentId}
          onChange={(event) => setParentId(event.currentTarget.value)}
        />
        <WorkSelect work={work} value={itemId} onChoose={setItemId} />
        {moment.fields}
      </div>
      {fit.error === null ? null : <ErrorNote head="Not fitted">{fit.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={componentId === '' || position.trim() === ''}
          busy={fit.isPending ? 'Recording' : undefined}
        >
          It is fitted
        </Button>
      </div>
    </form>
  );
}

/** Takes a part off, with what it carries. */
export function TakeOffForm({
  componentId,
  name,
  lifeLimited,
  work,
}: {
  componentId: string;
  name: string;
  lifeLimited: boolean;
  work: readonly WorkHere[];
}) {
  const [words, setWords] = useState('');
  const handling = useHandling(work, lifeLimited);
  const moment = useMoment();
  const take = useDoing(
    async (input: RemoveComponentInput) =>
      (await request(RemoveComponentDocument, { input })).removeComponent,
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    take.mutate({ componentId, words, ...moment.given, ...handling.given });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`Take ${name}, off`}>
      <Field
        label="Why, in what condition, and whereto"
        required
        maxLength={500}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      <div className={styles.pair}>
        {handling.fields}
        {moment.fields}
      </div>
      {take.error === null ? null : (
        <ErrorNote head="Not taken off">{take.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={words.trim().length < 3 || !handling.complete}
          busy={take.isPending ? 'Recording' : undefined}
        >
          It is off
        </Button>
      </div>
    </form>
  );
}
