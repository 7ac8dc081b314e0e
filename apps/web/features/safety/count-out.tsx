'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './safety.module.css';

interface Row {
  name: string;
  number: string;
}
const fresh: readonly Row[] = [{ name: 'Rags', number: '' }];
const empty: Row = { name: '', number: '' };

/** What goes out to the aircraft, name by name with its number. */
export function CountOut({
  busy,
  onCount,
}: {
  busy: boolean;
  onCount: (lines: readonly { name: string; number: number }[]) => void;
}) {
  const [rows, setRows] = useState<readonly Row[]>(fresh);
  const [wrong, setWrong] = useState<string>();
  const change = (index: number, over: Partial<Row>) =>
    setRows(rows.map((row, each) => (each === index ? { ...row, ...over } : row)));
  const send = (event: FormEvent) => {
    event.preventDefault();
    const named = rows.filter(({ name, number }) => name.trim() !== '' || number.trim() !== '');
    const bad = named.find(
      ({ name, number }) => name.trim() === '' || !/^[1-9]\d{0,2}$/.test(number.trim()),
    );
    setWrong(
      named.length === 0
        ? 'Name what goes out, each with its number.'
        : bad === undefined
          ? undefined
          : `${bad.name.trim() === '' ? 'A number' : bad.name} needs ${bad.name.trim() === '' ? 'a name' : 'a number from 1 to 999'}.`,
    );
    if (named.length === 0 || bad !== undefined) return;
    onCount(named.map(({ name, number }) => ({ name: name.trim(), number: Number(number) })));
    setRows(fresh);
  };
  return (
    <details>
      <summary className={styles.summary}>Count out tools and rags</summary>
      <form className={styles.form} onSubmit={send} noValidate aria-label="Count out">
        {rows.map((row, index) => (
          <div key={index} className={styles.count}>
            <Field
              label="What"
              maxLength={80}
              value={row.name}
              onChange={(event) => change(index, { name: event.currentTarget.value })}
            />
            <Field
              label="How many"
              figures
              inputMode="numeric"
              maxLength={3}
              value={row.number}
              onChange={(event) => change(index, { number: event.currentTarget.value })}
            />
          </div>
        ))}
        {wrong === undefined ? null : <ErrorNote>{wrong}</ErrorNote>}
        <div className={styles.pair}>
          <Button disabled={rows.length >= 60} onClick={() => setRows([...rows, empty])}>
            One more
          </Button>
          <Button type="submit" busy={busy ? 'Recording' : undefined}>
            Count out
          </Button>
        </div>
      </form>
    </details>
  );
}
