import type { ReactNode } from 'react';
import styles from './More.module.css';

/** The rest of a long list, folded until somebody asks for it; paper shows it open. */
export function More({ words, children }: { words: string; children: ReactNode }) {
  return (
    <details className={styles.more}>
      <summary>{words}</summary>
      {children}
    </details>
  );
}
