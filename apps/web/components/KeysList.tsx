'use client';

import { useEffect, useRef, useSyncExternalStore } from 'react';
import { Button } from './Button.tsx';
import { Tick } from './Choice.tsx';
import styles from './KeysList.module.css';
import {
  isForSheet,
  type SheetKeys,
  singleKeysOn,
  turnSingleKeys,
  watchSingleKeys,
} from './sheet-keys.ts';

/** The word "Keys" in the frame and what it opens: the keys of the sheet at hand. `?` opens it too. */
export function KeysList({ keys }: { keys: SheetKeys }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const on = useSyncExternalStore(watchSingleKeys, singleKeysOn, () => true);
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.key !== '?' || !isForSheet(event)) return;
      event.preventDefault();
      dialog.current?.showModal();
    };
    window.addEventListener('keydown', listen);
    return () => window.removeEventListener('keydown', listen);
  }, []);
  return (
    <>
      <span className={styles.word}>
        <Button kind="plain" aria-haspopup="dialog" onClick={() => dialog.current?.showModal()}>
          Keys
        </Button>
      </span>
      <dialog ref={dialog} className={styles.dialog} aria-labelledby="keys-of-this-sheet">
        <h2 id="keys-of-this-sheet">Keys of this sheet</h2>
        <dl className={styles.list}>
          {[...keys, { keys: '?', does: 'this list' }].map((each) => (
            <div key={`${each.keys} ${each.does}`}>
              <dt>
                <kbd>{each.keys}</kbd>
              </dt>
              <dd>{each.does}</dd>
            </div>
          ))}
        </dl>
        <Tick
          name="single-keys"
          words="Keys pressed alone work on this device"
          note="A single letter or sign. Never while you write in a field."
          ticked={on}
          onTick={turnSingleKeys}
        />
        <div className={styles.close}>
          <Button onClick={() => dialog.current?.close()}>Close</Button>
        </div>
      </dialog>
    </>
  );
}
