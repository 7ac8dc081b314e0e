import styles from './programme.module.css';
import type { DueLine } from './programme-documents.ts';
import { runOf } from './run-of.ts';

/** How far something has run from the last time to the next, as a dimension with a mark at now. */
export function RunLine({ line }: { line: DueLine }) {
  const run = runOf(line);
  if (run === null) return null;
  return (
    <span
      className={styles.run}
      data-over={run > 1 ? '' : undefined}
      style={{ '--run': `${Math.min(run, 1) * 100}%` } as React.CSSProperties}
      aria-hidden="true"
    />
  );
}
