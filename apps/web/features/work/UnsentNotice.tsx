'use client';

import { useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './bench.module.css';
import { outbox } from './outbox.ts';
import type { Pending } from './outbox-store.ts';
import { useOutbox } from './use-bench.ts';

const SLOW_MS = 4000;

/** Entries worth a word: refused, or on this device for longer than a moment. */
export function useUnsent(personId: string | undefined): readonly Pending[] {
  const { pending, failing } = useOutbox();
  const [now, setNow] = useState(0);
  const waiting = pending.length > 0;
  useEffect(() => {
    if (!waiting) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [waiting]);
  return pending.filter(
    (entry) =>
      entry.personId === personId &&
      (entry.refused !== undefined ||
        failing ||
        // A photo that gets on is told of beside its picture.
        (entry.kind !== 'photo' && now - entry.madeAt > SLOW_MS)),
  );
}

/** The line at the very top: what is on this device and not with the shop yet. */
export function UnsentNotice({ unsent }: { unsent: readonly Pending[] }) {
  const waiting = unsent.filter((entry) => entry.refused === undefined);
  const refused = unsent.filter((entry) => entry.refused !== undefined);
  return (
    <div className={styles.unsent}>
      {waiting.length === 0 ? null : (
        <p>
          <strong>
            {waiting.length === 1 ? 'One thing is' : `${waiting.length} things are`} not sent yet
          </strong>
          , kept here until the shop has them: {waiting.map(({ words }) => words).join('; ')}.{' '}
          <Button kind="plain" onClick={() => outbox.tryAgain()}>
            Try now
          </Button>
        </p>
      )}
      {refused.map((entry) => (
        <div key={entry.id}>
          <p>
            <strong>Not taken.</strong> {entry.words}. {entry.refused}
          </p>
          <div className={styles.pair}>
            <Button onClick={() => outbox.tryAgain(entry)}>Try again</Button>
            <Button onClick={() => outbox.discard(entry)}>Throw away</Button>
          </div>
        </div>
      ))}
    </div>
  );
}
