'use client';

import { type ReactNode, useEffect, useId, useRef } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './bench.module.css';

/** What is asked or read before a clock starts; Escape and "Not now" leave it. */
export function AskFirst({
  head,
  onLeave,
  children,
}: {
  head: string;
  onLeave: () => void;
  children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className={styles.dialog}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        onLeave();
      }}
    >
      <h2 id={heading}>{head}</h2>
      {children}
      <Button size="bench" onClick={onLeave}>
        Not now
      </Button>
    </dialog>
  );
}
