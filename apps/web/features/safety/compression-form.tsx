'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './safety.module.css';
import { useFact } from './use-fact.ts';

const FOUR: readonly string[] = ['', '', '', ''];

/** A differential-compression check, cylinder by cylinder, as it was read. */
export function RecordCompression({ itemId }: { itemId: string }) {
  const [supply, setSupply] = useState('80');
  const [held, setHeld] = useState<readonly string[]>(FOUR);
  const [engine, setEngine] = useState('');
  const [wrong, setWrong] = useState<string>();
  const recording = useFact('compression', () => setHeld(held.map(() => '')));
  const record = (event: FormEvent) => {
    event.preventDefault();
    const missing = held.findIndex((reading) => !/^\d{1,3}$/.test(reading.trim()));
    setWrong(
      !/^\d{1,3}$/.test(supply.trim())
        ? 'Give the pressure of the supply in whole psi.'
        : missing >= 0
          ? `Cylinder ${missing + 1} needs its reading in whole psi.`
          : undefined,
    );
    if (missing < 0 && /^\d{1,3}$/.test(supply.trim()))
      recording.mutate({
        input: { itemId, engine, supply: Number(supply), held: held.map(Number) },
        words: `Compression: ${held.join(', ')} of ${supply} psi`,
      });
  };
  const figure = { figures: true, inputMode: 'numeric', maxLength: 3, unit: 'psi' } as const;
  return (
    <form className={styles.form} onSubmit={record} noValidate aria-label="Record compression">
      <div className={styles.two}>
        <Field
          label="Put in"
          {...figure}
          value={supply}
          onChange={(event) => setSupply(event.currentTarget.value)}
        />
        <Field
          label="Which engine"
          hint="Where there are two."
          maxLength={60}
          value={engine}
          onChange={(event) => setEngine(event.currentTarget.value)}
        />
      </div>
      <div className={styles.cylinders}>
        {held.map((reading, index) => (
          <Field
            key={index}
            label={`Cylinder ${index + 1}`}
            {...figure}
            value={reading}
            onChange={(event) =>
              setHeld(held.map((each, at) => (at === index ? event.currentTarget.value : each)))
            }
          />
        ))}
      </div>
      <div className={styles.pair}>
        <Button disabled={held.length >= 18} onClick={() => setHeld([...held, ''])}>
          A cylinder more
        </Button>
        <Button disabled={held.length <= 1} onClick={() => setHeld(held.slice(0, -1))}>
          One fewer
        </Button>
      </div>
      {wrong === undefined ? null : <ErrorNote>{wrong}</ErrorNote>}
      {recording.error === null ? null : (
        <ErrorNote head="Not recorded">{recording.error.message}</ErrorNote>
      )}
      <p className={styles.second}>
        A loss in excess of a quarter is cause to suspect a cylinder (AC 43.13-1B, 8-14). The engine
        maker’s own limit governs where there is one.
      </p>
      <Button type="submit" size="bench" busy={recording.isPending ? 'Recording' : undefined}>
        Record the check
      </Button>
    </form>
  );
}
