'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { LongField } from '../../components/Field.tsx';
import styles from './bench.module.css';

/** Says that an item is not done on this visit, after what follows from it. */
export function PutOffItem({
  critical,
  runsHere,
  onPutOff,
}: {
  critical: boolean;
  /** Whether this person's clock runs on it: it is stopped first. */
  runsHere: boolean;
  onPutOff: (reason: string) => void;
}) {
  const [reason, setReason] = useState('');
  const [wrong, setWrong] = useState<string>();
  const putOff = (event: FormEvent) => {
    event.preventDefault();
    const missing = reason.trim().length < 3;
    setWrong(missing ? 'Say why: it stands beside the item for whoever asks.' : undefined);
    if (!missing) onPutOff(reason);
  };
  return (
    <form className={styles.form} onSubmit={putOff} noValidate>
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
      <Button type="submit" size="bench">
        {runsHere ? 'Stop the clock: put it off' : 'Put it off'}
      </Button>
    </form>
  );
}
