import styles from './revisions.module.css';

/** The triangle of a drawing that changes: the same number stands in the revision table. */
export function Delta({ number }: { number: number }) {
  return (
    <span className={styles.delta}>
      <svg viewBox="0 0 34 30" aria-hidden="true">
        <path
          d="M17 1.5 32.5 28.5H1.5Z"
          fill="var(--ground)"
          stroke="currentColor"
          strokeWidth="2"
        />
      </svg>
      <span>{number}</span>
    </span>
  );
}
