'use client';

import { useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './bench.module.css';
import { outbox } from './outbox.ts';
import { type Pending, waits } from './pending.ts';
import { useOutbox } from './use-bench.ts';

const SLOW_MS = 4000;

/** Entries worth a word: refused, taken with something to know, or on this device for longer than a moment. */
export function useUnsent(personId: string | undefined): readonly Pending[] {
  const { pending, failing } = useOutbox();
  const [now, setNow] = useState(0);
  const waiting = pending.some(waits);
  useEffect(() => {
    if (!waiting) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [waiting]);
  return pending.filter(
    (entry) =>
      entry.personId === personId &&
      (entry.refused !== undefined ||
        entry.told !== undefined ||
        (waits(entry) &&
          (failing ||
            // A photo that gets on is told of beside its picture.
            (entry.kind !== 'photo' && now - entry.madeAt > SLOW_MS)))),
  );
}

/** The line at the very top: what is on this device and not with the shop yet. */
export function UnsentNotice({ unsent }: { unsent: readonly Pending[] }) {
  const { unkept } = useOutbox();
  const waiting = unsent.filter(waits);
  const refused = unsent.filter((entry) => entry.refused !== undefined);
  const told = unsent.filter((entry) => entry.told !== undefined);
  return (
    <div className={styles.unsent}>
      {waiting.length === 0 ? null : (
        <p>
          <strong>
            {waiting.length === 1 ? 'One thing is' : `${waiting.length} things are`} not sent yet
          </strong>
          {unkept ? '' : ', kept here until the shop has them'}:{' '}
          {shortened(waiting.map(({ words }) => words))}.{' '}
          <Button kind="plain" onClick={() => outbox.tryAgain()}>
            Try now
          </Button>
        </p>
      )}
      {unkept ? (
        <p>
          <strong>This device keeps nothing more</strong>: its storage is full or switched off.
          Leave this page open until it is sent; make room on the device.
        </p>
      ) : null}
      {told.map((entry) => (
        <div key={entry.id}>
          <p>
            <strong>Taken.</strong> {entry.words}. {entry.told}
          </p>
          <Button onClick={() => outbox.discard(entry)}>Understood</Button>
        </div>
      ))}
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

/** The first few by name, the rest by number. */
const shortened = (words: readonly string[]): string =>
  words.length <= 4
    ? words.join('; ')
    : `${words.slice(0, 3).join('; ')}; and ${words.length - 3} more`;
