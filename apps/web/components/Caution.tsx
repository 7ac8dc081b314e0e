import type { ReactNode } from 'react';
import styles from './Notes.module.css';

/** The hazards of the item at hand, shown before the clock starts and printed with it. */
export function Caution({
  hazards,
  head = 'Caution',
  children,
}: {
  hazards: readonly string[];
  head?: string;
  /** Which document governs, in one sentence. */
  children?: ReactNode;
}) {
  return (
    <section className={styles.caution} aria-label={head}>
      <p className={styles.cautionHead}>
        <svg viewBox="0 0 26 24" aria-hidden="true">
          <path d="M13 2 24.5 22H1.5Z" fill="none" stroke="currentColor" strokeWidth="2" />
          <path d="M13 9V15M13 17.4V19.4" stroke="currentColor" strokeWidth="2" />
        </svg>
        {head}
      </p>
      <ul>
        {hazards.map((hazard) => (
          <li key={hazard}>
            <span>{hazard}</span>
          </li>
        ))}
      </ul>
      {children === undefined ? null : <p className={styles.foot}>{children}</p>}
    </section>
  );
}
