'use client';

import { Tick } from '../../components/Choice.tsx';
import styles from './programme.module.css';

/** What falls due, with its tick for a quote where the shop has work for it; all names stand in one column. */
export function DueName({
  id,
  words,
  under,
  ticked = false,
  onTick,
}: {
  id: string;
  words: string;
  under: string;
  ticked?: boolean | undefined;
  onTick?: ((on: boolean) => void) | undefined;
}) {
  return (
    <div className={styles.named}>
      {onTick === undefined ? (
        <p className={styles.untickable}>{words}</p>
      ) : (
        <Tick plain name={`quote-${id}`} words={words} ticked={ticked} onTick={onTick} />
      )}
      <p className={styles.quiet}>{under}</p>
    </div>
  );
}
