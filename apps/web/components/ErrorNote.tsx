import type { ReactNode } from 'react';
import styles from './Notes.module.css';

/**
 * Something was refused: one sentence with what, the value given and the value needed, then what
 * can be done about it.
 */
export function ErrorNote({
  head,
  children,
  missing,
  action,
}: {
  /** Two or three words: "Not sent", "Cannot release". */
  head?: string;
  children: ReactNode;
  /** Each thing that is missing, one sentence a line. */
  missing?: readonly string[];
  action?: ReactNode;
}) {
  return (
    <div className={styles.error} role="alert">
      {head === undefined ? null : <p className={styles.head}>{head}</p>}
      <p>{children}</p>
      {missing === undefined || missing.length === 0 ? null : (
        <ul>
          {missing.map((each) => (
            <li key={each}>
              <span>{each}</span>
            </li>
          ))}
        </ul>
      )}
      {action}
    </div>
  );
}
