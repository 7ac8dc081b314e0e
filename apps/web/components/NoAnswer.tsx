import type { ReactNode } from 'react';
import { Button } from './Button.tsx';
import { ErrorNote } from './ErrorNote.tsx';
import { End } from './marks.tsx';
import styles from './NoAnswer.module.css';

/**
 * A sheet that could not be fetched: a dimension broken off where the answer should stand, the
 * sentence that came instead, and the way to ask again.
 */
export function NoAnswer({
  head,
  problem,
  onAgain,
  action,
}: {
  /** Two or three words: "No list to show". */
  head: string;
  problem: { message: string };
  onAgain?: () => void;
  /** Another way on. */
  action?: ReactNode;
}) {
  return (
    <div className={styles.place}>
      <svg className={styles.drawing} aria-hidden="true">
        <line x1="0" x2="47%" y1="20" y2="20" stroke="currentColor" />
        <line x1="53%" x2="100%" y1="20" y2="20" stroke="currentColor" />
        <End x="1" y="20" />
        <End x="99.5%" y="20" />
        <svg
          aria-hidden="true"
          x="47%"
          y="6"
          width="6%"
          height="28"
          viewBox="0 0 28 28"
          preserveAspectRatio="none"
        >
          <path
            d="M0 14L7 2L11 26M17 2L21 26L28 14"
            fill="none"
            stroke="currentColor"
            vectorEffect="non-scaling-stroke"
          />
        </svg>
      </svg>
      <ErrorNote
        head={head}
        action={
          onAgain === undefined && action === undefined ? undefined : (
            <div className={styles.ways} data-screen-only="">
              {onAgain === undefined ? null : <Button onClick={onAgain}>Ask again</Button>}
              {action}
            </div>
          )
        }
      >
        {problem.message}
      </ErrorNote>
    </div>
  );
}
