'use client';

import { type FormEvent, type ReactNode, useEffect, useRef } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './books.module.css';

/** A question in the sheet before something that cannot be undone. It takes the keyboard with it. */
export function AskOnce({
  question,
  yes,
  busy,
  onYes,
  onNo,
  children,
}: {
  question: string;
  yes: string;
  /** What is happening; nothing can be pressed meanwhile. */
  busy: string | undefined;
  onYes: () => void;
  onNo: () => void;
  /** Fields that belong to it, and what was refused. */
  children?: ReactNode;
}) {
  const words = useRef<HTMLParagraphElement>(null);
  useEffect(() => words.current?.focus(), []);
  function submit(event: FormEvent) {
    event.preventDefault();
    onYes();
  }
  return (
    <form
      className={styles.ask}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && busy === undefined) onNo();
      }}
    >
      <p ref={words} tabIndex={-1}>
        {question}
      </p>
      {children}
      <div className={styles.ways}>
        <Button kind="primary" type="submit" busy={busy}>
          {yes}
        </Button>
        <Button disabled={busy !== undefined} onClick={onNo}>
          Not now
        </Button>
      </div>
    </form>
  );
}
