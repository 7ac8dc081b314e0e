'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { NoteDutyInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import {
  AddDataSourceDocument,
  CheckDataDocument,
  DoDutyDocument,
  NoteDutyDocument,
  type OrderKnown,
} from './deadline-documents.ts';
import { deadlineKinds } from './deadline-words.ts';
import styles from './programme.module.css';
import { countOf } from './typed-hours.ts';

/** Something is owed to the authority after work on an order. */
export function DutyForm({ orders }: { orders: readonly OrderKnown[] }) {
  const [kind, setKind] = useState('major_form');
  const [orderId, setOrderId] = useState('');
  const [words, setWords] = useState('');
  const note = useDoing(
    async (input: NoteDutyInput) => (await request(NoteDutyDocument, { input })).noteDuty,
    () => setWords(''),
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    note.mutate({ kind: kind as NoteDutyInput['kind'], orderId, words });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Something is owed to the authority">
      <Choices
        legend="What is owed"
        name="duty-kind"
        value={kind}
        options={(['major_form', 'defect_report'] as const).map((value) => ({
          value,
          words: deadlineKinds[value],
        }))}
        onChoose={setKind}
      />
      <div className={styles.pair}>
        <Select
          label="After work on"
          options={[
            { value: '', words: 'choose an order' },
            ...orders.map(({ id, number, title, aircraft }) => ({
              value: id,
              words: `${number} · ${aircraft.registration}, ${title}`,
            })),
          ]}
          value={orderId}
          onChange={(event) => setOrderId(event.currentTarget.value)}
        />
        <Field
          label="Which repair, alteration or defect"
          maxLength={500}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
      </div>
      {note.error === null ? null : <ErrorNote head="Not noted">{note.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={orderId === '' || words.trim().length < 3}
          busy={note.isPending ? 'Noting' : undefined}
        >
          Note it
        </Button>
      </div>
    </form>
  );
}

/** It went to the authority, or is not owed: said by name. */
export function DoneForm({ dutyId, title }: { dutyId: string; title: string }) {
  const [words, setWords] = useState('');
  const done = useDoing(
    async (said: string) => (await request(DoDutyDocument, { dutyId, words: said })).doDuty,
  );
  return (
    <fieldset className={styles.form} aria-label={`${title}: it went, or is not owed`}>
      <Field
        label="How it went, with its number; or why it is not owed"
        maxLength={500}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      {done.error === null ? null : <ErrorNote head="Not recorded">{done.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button
          disabled={words.trim().length < 3}
          busy={done.isPending ? 'Recording' : undefined}
          onClick={() => done.mutate(words)}
        >
          Record it
        </Button>
      </div>
    </fieldset>
  );
}

/** Maintenance data whose revision is looked up from time to time. */
export function DataForm() {
  const [title, setTitle] = useState('');
  const [revision, setRevision] = useState('');
  const [days, setDays] = useState('90');
  const add = useDoing(
    async (input: { title: string; everyDays: number; revision: string }) =>
      (await request(AddDataSourceDocument, input)).addDataSource,
    () => {
      setTitle('');
      setRevision('');
    },
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    add.mutate({ title, revision, everyDays: countOf(days) ?? 0 });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Maintenance data to look up">
      <div className={styles.pair}>
        <Field
          label="Which manual or data"
          required
          maxLength={200}
          value={title}
          onChange={(event) => setTitle(event.currentTarget.value)}
        />
        <Field
          label="Revision found today"
          required
          maxLength={100}
          value={revision}
          onChange={(event) => setRevision(event.currentTarget.value)}
        />
        <Field
          label="Look again every so many days"
          required
          inputMode="numeric"
          value={days}
          onChange={(event) => setDays(event.currentTarget.value)}
        />
      </div>
      {add.error === null ? null : <ErrorNote head="Not added">{add.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button type="submit" busy={add.isPending ? 'Adding' : undefined}>
          Add it
        </Button>
      </div>
    </form>
  );
}

/** Somebody looked up which revision is current. */
export function CheckForm({ sourceId, title }: { sourceId: string; title: string }) {
  const [revision, setRevision] = useState('');
  const check = useDoing(
    async (found: string) =>
      (await request(CheckDataDocument, { sourceId, revision: found })).checkData,
    () => setRevision(''),
  );
  return (
    <fieldset className={styles.form} aria-label={`${title}: looked up today`}>
      <Field
        label="Revision found"
        maxLength={100}
        value={revision}
        onChange={(event) => setRevision(event.currentTarget.value)}
      />
      {check.error === null ? null : (
        <ErrorNote head="Not recorded">{check.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button
          disabled={revision.trim() === ''}
          busy={check.isPending ? 'Recording' : undefined}
          onClick={() => check.mutate(revision)}
        >
          It is the current one
        </Button>
      </div>
    </fieldset>
  );
}
