'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { DueEventInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import styles from './programme.module.css';
import { type DueLine, RecordDueEventDocument } from './programme-documents.ts';
import { hundredthsOf } from './typed-hours.ts';

/** Something was done, or falls due no more. */
export function CompliedForm({ line }: { line: DueLine }) {
  const [doneOn, setDoneOn] = useState('');
  const [hours, setHours] = useState('');
  const [typed, setTyped] = useState(emptyCounts);
  const [method, setMethod] = useState('');
  const record = useDoing(
    async (input: DueEventInput) =>
      (await request(RecordDueEventDocument, { input })).recordDueEvent,
    () => setMethod(''),
  );
  const counts = countsTyped(typed);
  const send = (kind: DueEventInput['kind']) =>
    record.mutate({
      ...{ itemId: line.itemId, kind, doneOn, method },
      ...(hours.trim() === '' ? {} : { tisHundredths: hundredthsOf(hours) }),
      ...(counts ? { counts } : {}),
    });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    send('complied');
  };
  const ready = doneOn !== '' && method.trim().length >= 2;
  return (
    <form className={styles.form} onSubmit={submit} aria-label={`${line.title} was done`}>
      <div className={styles.pair}>
        <Field
          label="Done on"
          type="date"
          required
          value={doneOn}
          onChange={(event) => setDoneOn(event.currentTarget.value)}
        />
        <Field
          label="Time in service then"
          hint="Hours, such as 1234.5; needed where it counts hours"
          inputMode="decimal"
          value={hours}
          onChange={(event) => setHours(event.currentTarget.value)}
        />
        <CountFields
          typed={typed}
          onTyped={setTyped}
          only={line.countsAsked}
          label={(counter) => `Aircraft’s ${counter} then`}
        />
      </div>
      <Field
        label="How it was complied with"
        hint="Method, paragraph, order; or why it falls due no more"
        maxLength={500}
        value={method}
        onChange={(event) => setMethod(event.currentTarget.value)}
      />
      {record.error === null ? null : (
        <ErrorNote head="Not recorded">{record.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button type="submit" disabled={!ready} busy={record.isPending ? 'Recording' : undefined}>
          It was done
        </Button>
        {line.repeats ? (
          <Button kind="plain" disabled={!ready} onClick={() => send('terminated')}>
            It was done, and ends the repeat
          </Button>
        ) : null}
        <Button kind="plain" disabled={!ready} onClick={() => send('ended')}>
          It falls due no more
        </Button>
      </div>
    </form>
  );
}
