'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './bench.module.css';
import { waitingOptions } from './form-words.ts';
import type { ItemChange } from './pending.ts';

type Reason = (typeof waitingOptions)[number]['value'];

/** What an item waits for. */
export function WaitForm({
  itemId,
  runsHere,
  onWait,
}: {
  itemId: string;
  /** Whether this person's clock runs on it: it is stopped first. */
  runsHere: boolean;
  onWait: (input: Extract<ItemChange, { does: 'wait' }>['input']) => void;
}) {
  const [reason, setReason] = useState<Reason>('parts');
  const [note, setNote] = useState('');
  const wait = (event: FormEvent) => {
    event.preventDefault();
    onWait({ itemId, waitingFor: reason, note });
  };
  return (
    <form className={styles.form} onSubmit={wait}>
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
      <Button type="submit" size="bench">
        {runsHere ? 'Stop the clock: it waits' : 'It waits'}
      </Button>
    </form>
  );
}
