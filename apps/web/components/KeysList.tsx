'use client';

import { lazy, Suspense, useEffect, useState } from 'react';
import { Button } from './Button.tsx';
import styles from './KeysList.module.css';
import { isForSheet, type SheetKeys } from './sheet-keys.ts';

/** Nobody at the bench opens it, and every sheet would carry it. */
const KeysDialog = lazy(() => import('./KeysDialog.tsx'));

/** The word "Keys" in the frame and what it opens: the keys of the sheet at hand. `?` opens it too. */
export function KeysList({ keys }: { keys: SheetKeys }) {
  const [open, setOpen] = useState(false);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.key !== '?' || !isForSheet(event)) return;
      event.preventDefault();
      setOpen(true);
    };
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);
  return (
    <>
      <span className={styles.word}>
        <Button kind="plain" aria-haspopup="dialog" onClick={() => setOpen(true)}>
          Keys
        </Button>
      </span>
      {open ? (
        <Suspense>
          <KeysDialog keys={keys} onClose={() => setOpen(false)} />
        </Suspense>
      ) : null}
    </>
  );
}
