'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { DecideDirectiveInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import { DecideDirectiveDocument, type DirectiveLine } from './directive-documents.ts';
import styles from './programme.module.css';
import { hundredthsOf } from './typed-hours.ts';

/** A person decides: it applies or it does not, it is chosen or not, and why. */
export function DecideForm({ line, aircraftId }: { line: DirectiveLine; aircraftId: string }) {
  const [reason, setReason] = useState('');
  const [hours, setHours] = useState('');
  const [day, setDay] = useState('');
  const [typed, setTyped] = useState(emptyCounts);
  const decide = useDoing(
    async (input: DecideDirectiveInput) =>
      (await request(DecideDirectiveDocument, { input })).decideDirective,
    () => setReason(''),
  );
  const { directive, componentId, decision } = line;
  const limitCounts = countsTyped(typed);
  const send = (binds: boolean) =>
    decide.mutate({
      ...{ directiveId: directive.id, aircraftId, binds, reason },
      ...(componentId == null ? {} : { componentId }),
      ...(hours.trim() === '' ? {} : { limitHundredths: hundredthsOf(hours) }),
      ...(day === '' ? {} : { limitDate: day }),
      ...(limitCounts ? { limitCounts } : {}),
    });
  const ready = reason.trim().length >= 3;
  const [yes, no] =
    directive.kind === 'directive'
      ? ['It applies', 'It does not apply']
      : ['It is chosen', 'It is not chosen'];
  return (
    <fieldset className={styles.form} aria-label={`Decide on ${directive.number}`}>
      <Field
        label="Why"
        hint="What was compared: the plate, the records, the part itself"
        maxLength={500}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <div className={styles.pair}>
        <Field
          label="First due at hours"
          hint={`Left empty, by its own words; ${componentId == null ? 'time in service' : 'the part’s own time'}`}
          inputMode="decimal"
          value={hours}
          onChange={(event) => setHours(event.currentTarget.value)}
        />
        <Field
          label="First due on"
          type="date"
          value={day}
          onChange={(event) => setDay(event.currentTarget.value)}
        />
        <CountFields
          typed={typed}
          onTyped={setTyped}
          only={directive.countsAsked}
          label={(counter) => `First due at ${counter}`}
        />
      </div>
      {decide.error === null ? null : (
        <ErrorNote head="Not decided">{decide.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button
          disabled={!ready || decision?.binds === true}
          busy={decide.isPending ? 'Recording' : undefined}
          onClick={() => send(true)}
        >
          {yes}
        </Button>
        <Button
          kind="plain"
          disabled={!ready || decision?.binds === false}
          onClick={() => send(false)}
        >
          {no}
        </Button>
      </div>
    </fieldset>
  );
}
