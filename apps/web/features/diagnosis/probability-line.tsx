import { At, End } from '../../components/marks.tsx';
import styles from './diagnosis.module.css';

/** A share of the whole as a dimension: the hairline is all causes together, the ink ends where this one does; the short stroke is one half. */
export function ProbabilityLine({ probability }: { probability: number }) {
  const to = `${100 * probability}%`;
  return (
    <svg className={styles.line} aria-hidden="true">
      <line className={styles.whole} x1="0" x2="100%" y1="12" y2="12" />
      <path className={styles.whole} d="M.5 4V20" />
      <At x="50%" y="12">
        <path className={styles.whole} d="M0-4V4" />
      </At>
      <At x="100%" y="12">
        <path className={styles.whole} d="M-.5-8V8" />
      </At>
      <line x1="0" x2={to} y1="12" y2="12" stroke="currentColor" strokeWidth="2" />
      <End x={to} y="12" up={8} down={8} />
    </svg>
  );
}
