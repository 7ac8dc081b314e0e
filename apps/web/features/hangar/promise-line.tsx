import { daysBetween, sayCivilDay } from '@fairlead/hangar';
import { At, End } from '../../components/marks.tsx';
import type { Stay } from './floor-documents.ts';
import styles from './revisions.module.css';

type Promised = NonNullable<NonNullable<Stay['order']>['promisedAtArrival']>;

/** As many days as the table holds. */
const DAYS = 14;

/**
 * What was promised when an aircraft arrived, as a dimension over the fourteen days of the table: a stroke at the day that
 * was as likely as not, an open triangle at the one of four in five.
 */
export function PromiseLine({
  promised: { p50, p80 },
  today,
  leavesOn,
}: {
  promised: Promised;
  /** `YYYY-MM-DD` in the shop's zone, as the day on which it is to leave. */
  today: string;
  leavesOn: string;
}) {
  if (p50 === null || p80 === null) return null;
  // A line is drawn to the end of its day; beyond the table it ends at its edge.
  const at = (day: string) =>
    `${(Math.min(DAYS, Math.max(0, daysBetween(today, day) + 1)) / DAYS) * 100}%`;
  return (
    <span className={styles.promised}>
      <span>
        promised, four in five: {sayCivilDay(p80, today)}
        {p80 < today ? (
          <span className={styles.late}> past</span>
        ) : p80 > leavesOn ? (
          <span className={styles.late}> after it is to leave</span>
        ) : null}
      </span>
      {p80 < today ? null : (
        <svg className={styles.line} aria-hidden="true">
          <line className={styles.days} x1="0" x2="100%" y1="12" y2="12" />
          <line x1="0" x2={at(p80)} y1="12" y2="12" stroke="currentColor" />
          <End x="0" y="12" up={6} down={6} />
          <End x={at(p80)} y="12" up={0} down={6} />
          <At x={at(p80)} y="12">
            <path d="M0-1-5-9H5Z" fill="var(--ground)" stroke="currentColor" />
          </At>
          <At x={at(p50)} y="12">
            <path d="M0-8V8" stroke="currentColor" strokeWidth="2" />
          </At>
        </svg>
      )}
    </span>
  );
}
