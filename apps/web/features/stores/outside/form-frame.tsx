'use client';

import { type FormEvent, type ReactNode, useEffect, useRef } from 'react';
import { Button } from '../../../components/Button.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import styles from '../stores.module.css';

/** One thing that is said of outside work: its fields, what was refused, and the way back. It takes the keyboard with it. */
export function FormFrame({
  name,
  words,
  yes,
  ready,
  doing,
  onYes,
  onBack,
  children,
}: {
  name: string;
  words?: string;
  yes: string;
  ready: boolean;
  doing: { isPending: boolean; error: Error | null };
  onYes: () => void;
  onBack: () => void;
  children: ReactNode;
}) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector<HTMLElement>('select, input')?.focus(), []);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (ready) onYes();
  }
  return (
    <form
      ref={form}
      className={styles.keep}
      aria-label={name}
      data-screen-only=""
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !doing.isPending) onBack();
      }}
    >
      <h3>{name}</h3>
      {words === undefined ? null : <p className={styles.second}>{words}</p>}
      {children}
      {doing.error === null ? null : (
        <ErrorNote head="Not recorded">{doing.error.message}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button
          kind="primary"
          type="submit"
          disabled={!ready}
          busy={doing.isPending ? 'Recording' : undefined}
        >
          {yes}
        </Button>
        <Button disabled={doing.isPending} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
