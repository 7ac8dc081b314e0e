'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { SaidNo } from '../quoting/use-answer.ts';
import styles from './programme.module.css';

interface Refused {
  line: number;
  column: string;
  value: string;
  problem: string;
  needed: string;
}
interface Taken {
  refused?: readonly Refused[];
  added?: number;
  flights?: number;
  hundredths?: number;
  error?: { message: string };
}

const SHOWN = 50;

/** A file that is taken in whole, or of which each refused row is said with its line. */
export function FilePart({
  address,
  label,
  hint,
  said,
}: {
  address: string;
  label: string;
  hint: string;
  said: (taken: Taken) => string;
}) {
  const client = useQueryClient();
  const [file, setFile] = useState<File | null>(null);
  const take = useMutation({
    mutationFn: async (csv: File): Promise<Taken> => {
      const response = await fetch(address, {
        method: 'POST',
        credentials: 'same-origin',
        headers: { 'x-fairlead': '1', 'content-type': 'text/csv' },
        body: csv,
      });
      const answer = (await response.json().catch(() => null)) as Taken | null;
      if (answer === null || answer.error)
        throw new SaidNo(
          answer?.error?.message ?? 'Nothing was taken in: the shop did not answer.',
        );
      return answer;
    },
    onSuccess: async ({ refused }) => {
      if (refused?.length === 0) await client.invalidateQueries();
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (file !== null) take.mutate(file);
  };
  const refused = take.data?.refused ?? [];
  return (
    <form className={styles.form} onSubmit={submit} aria-label={label}>
      <Field
        label={label}
        hint={hint}
        type="file"
        accept=".csv,text/csv"
        onChange={(event) => {
          setFile(event.currentTarget.files?.[0] ?? null);
          take.reset();
        }}
      />
      {take.error === null ? null : <ErrorNote head="Not taken in">{take.error.message}</ErrorNote>}
      {refused.length === 0 ? null : (
        <div role="alert" className={styles.refused}>
          <p>
            Nothing was taken in: {refused.length} {refused.length === 1 ? 'cell is' : 'cells are'}{' '}
            refused.
          </p>
          <ul className={styles.points}>
            {refused.slice(0, SHOWN).map(({ line, column, value, problem, needed }) => (
              <li key={`${line} ${column} ${problem}`}>
                Line {line}
                {column === '' ? '' : `, ${column}`}: {value === '' ? 'it' : `“${value}”`} {problem}
                ; needed: {needed}.
              </li>
            ))}
          </ul>
          {refused.length > SHOWN ? <p>And {refused.length - SHOWN} more.</p> : null}
        </div>
      )}
      <p role="status">{take.data && refused.length === 0 ? said(take.data) : ''}</p>
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={file === null}
          busy={take.isPending ? 'Reading' : undefined}
        >
          Take it in
        </Button>
      </div>
    </form>
  );
}
