'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './bench.module.css';
import { waitingOptions } from './form-words.ts';
import type { ChangeItem } from './use-change-item.ts';

type Reason = (typeof waitingOptions)[number]['value'];

/** What an item waits for. */
export function WaitForm({
  itemId,
  runsHere,
  onStop,
  waiting,
}: {
  itemId: string;
  runsHere: boolean;
  onStop: () => Promise<unknown>;
  waiting: ChangeItem;
}) {
  const [reason, setReason] = useState<Reason>('parts');
  const [note, setNote] = useState('');
  const wait = async (event: FormEvent) => {
    event.preventDefault();
    if (runsHere) await onStop();
    waiting.mutate({ kind: 'wait', input: { itemId, waitingFor: reason, note } });
  };
  return (
    <form className={styles.form} onSubmit={(event) => void wait(event)}>
      <Choices
        legend="It waits for"
        name="waitingFor"
        options={waitingOptions}
        value={reason}
        onChoose={(value) => setReason(value as Reason)}
      />
      <Field
        label="More of it"
        maxLength={500}
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
      {waiting.error ? <ErrorNote head="Not noted">{waiting.error.message}</ErrorNote> : null}
      <Button type="submit" size="bench" busy={waiting.isPending ? 'Sending' : undefined}>
        {runsHere ? 'Stop the clock: it waits' : 'It waits'}
      </Button>
    </form>
  );
}
