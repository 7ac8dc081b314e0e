'use client';

import { useEffect, useRef, useSyncExternalStore } from 'react';
import { Button } from './Button.tsx';
import { Tick } from './Choice.tsx';
import styles from './KeysList.module.css';
import { type SheetKeys, singleKeysOn, turnSingleKeys, watchSingleKeys } from './sheet-keys.ts';

/** The keys of the sheet at hand, and whether those pressed alone work on this device. */
export default function KeysDialog({ keys, onClose }: { keys: SheetKeys; onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const on = useSyncExternalStore(watchSingleKeys, singleKeysOn, () => true);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog
      ref={dialog}
      className={styles.dialog}
      aria-labelledby="keys-of-this-sheet"
      onClose={onClose}
    >
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
  );
}
