import { dayAndTimeText } from '../../../lib/figures/dates.ts';
import styles from './places.module.css';
import type { Places } from './places-document.ts';

/** What was believed when, who changed it, and why; the newest first. */
export function Revisions({
  revisions,
  timeZone,
}: {
  revisions: Places['revisions'];
  timeZone: string;
}) {
  return (
    <ol>
      {revisions.map(({ revision, savedAt, savedBy, reason, changes }) => (
        <li key={revision} className={styles.revision}>
          {revision === 0 ? (
            <p>Revision 0: the program’s own table, until a manager saves another.</p>
          ) : (
            <>
              <p>
                Revision {revision}, {savedBy}, {dayAndTimeText(String(savedAt), timeZone)}:{' '}
                {reason}
              </p>
              <ul>
                {changes.map((change) => (
                  <li key={change}>{change}</li>
                ))}
              </ul>
            </>
          )}
        </li>
      ))}
    </ol>
  );
}
