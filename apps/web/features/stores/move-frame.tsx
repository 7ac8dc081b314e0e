'use client';

import { type FormEvent, type ReactNode, useEffect, useRef } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import styles from './stores.module.css';

/** A form above the shelf: it takes the keyboard with it, Escape leaves it, and it says what it does. */
export function MoveFrame({
  name,
  says,
  yes,
  ready,
  busy,
  problem,
  onYes,
  onNo,
  children,
}: {
  name: string;
  /** What follows from it, in a sentence. */
  says: string;
  yes: string;
  ready: boolean;
  busy: string | undefined;
  problem: Error | null;
  onYes: () => void;
  onNo: () => void;
  children: ReactNode;
}) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    form.current?.scrollIntoView({ block: 'start' });
    form.current?.querySelector<HTMLElement>('input, select')?.focus({ preventScroll: true });
  }, []);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (ready && busy === undefined) onYes();
  }
  return (
    <form
      ref={form}
      className={styles.move}
      aria-label={name}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && busy === undefined && !event.defaultPrevented) onNo();
      }}
    >
      <h2>{name}</h2>
      {children}
      {problem === null ? null : <ErrorNote head="Not recorded">{problem.message}</ErrorNote>}
      <p className={styles.second}>{says}</p>
      <div className={styles.ways}>
        <Button kind="primary" type="submit" disabled={!ready} busy={busy}>
          {yes}
        </Button>
        <Button disabled={busy !== undefined} onClick={onNo}>
          Not now
        </Button>
      </div>
    </form>
  );
}
