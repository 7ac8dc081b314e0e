import { End } from '../../components/marks.tsx';
import styles from './floor.module.css';

/** A share of the stands' hours as a dimension on a scale of a hundred per cent. */
export function Occupancy({ words, share }: { words: string; share: number }) {
  const text = `${Math.round(share * 100)} %`;
  const end = `${Math.min(100, Math.max(0, share * 100))}%`;
  return (
    <div className={styles.share}>
      <dt>{words}</dt>
      <dd>
        <span className={styles.line}>
          <svg aria-hidden="true">
            <line x1="0" x2="100%" y1="14" y2="14" className={styles.base} />
            <line x1={end} x2={end} y1="6" y2="22" className={styles.base} />
            <line x1="0" x2={end} y1="14" y2="14" stroke="currentColor" strokeWidth="2" />
            <End x="0" y="14" />
            <End x={end} y="14" />
            <line x1="100%" x2="100%" y1="6" y2="22" className={styles.base} />
          </svg>
        </span>
        <span className={styles.percent}>{text}</span>
      </dd>
    </div>
  );
}
