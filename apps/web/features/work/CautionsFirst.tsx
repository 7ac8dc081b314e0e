'use client';

import { useEffect, useRef } from 'react';
import { Button } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import styles from './bench.module.css';
import type { BenchItem } from './bench-documents.ts';

/** The hazards of an item, before its clock starts. */
export function CautionsFirst({
  item,
  onRead,
  onLeave,
}: {
  item: Pick<BenchItem, 'id' | 'title' | 'cautions'>;
  onRead: () => void;
  onLeave: () => void;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className={styles.dialog}
      aria-labelledby="cautions-of"
      onCancel={(event) => {
        event.preventDefault();
        onLeave();
      }}
    >
      <h2 id="cautions-of">{item.title}</h2>
      <Caution hazards={item.cautions} head="Before you start">
        The maker’s current manual governs.
      </Caution>
      <Button kind="primary" size="bench" onClick={onRead}>
        Read. Start the clock
      </Button>
      <Button size="bench" onClick={onLeave}>
        Not now
      </Button>
    </dialog>
  );
}
