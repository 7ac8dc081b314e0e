'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField } from '../../components/Field.tsx';
import styles from './bench.module.css';
import type { ChangeItem } from './use-change-item.ts';

/** Says that an item is not done on this visit, after what follows from it. */
export function PutOffItem({
  itemId,
  critical,
  runsHere,
  onStop,
  putting,
}: {
  itemId: string;
  critical: boolean;
  /** Whether this person's clock runs on it: it is stopped first. */
  runsHere: boolean;
  onStop: () => Promise<unknown>;
  putting: ChangeItem;
}) {
  const [reason, setReason] = useState('');
  const [wrong, setWrong] = useState<string>();
  const putOff = async (event: FormEvent) => {
    event.preventDefault();
    const missing = reason.trim().length < 3;
    setWrong(missing ? 'Say why: it stands beside the item for whoever asks.' : undefined);
    if (missing) return;
    if (runsHere) await onStop();
    putting.mutate({ kind: 'putOff', itemId, reason });
  };
  return (
    <form className={styles.form} onSubmit={(event) => void putOff(event)} noValidate>
      <ul className={styles.follows} aria-label="What follows from it">
        <li>It leaves the bench, and no entry says that it was done.</li>
        <li>Hours and parts already on it stay on it.</li>
        <li>
          The release no longer waits for it
          {critical ? ', though it is critical: tell the owner' : ''}.
        </li>
        <li>Until the release it can be taken up again.</li>
      </ul>
      <LongField
        label="Why it is put off"
        rows={3}
        maxLength={500}
        wrong={wrong}
        value={reason}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {putting.error ? <ErrorNote head="Not put off">{putting.error.message}</ErrorNote> : null}
      <Button type="submit" size="bench" busy={putting.isPending ? 'Sending' : undefined}>
        {runsHere ? 'Stop the clock: put it off' : 'Put it off'}
      </Button>
    </form>
  );
}
