'use client';

import styles from './bench.module.css';
import type { BenchItem } from './bench-documents.ts';
import { ViewLink } from './view.tsx';

/** Two areas where the thumb is. */
export function ThumbBar({
  item,
  onStop,
}: {
  /** What the clock runs on; null: it is stopped. */
  item: Pick<BenchItem, 'id'> | null;
  onStop: () => void;
}) {
  return (
    <div className={styles.thumb} data-screen-only>
      <button type="button" onClick={onStop} disabled={item === null}>
        <svg viewBox="0 0 20 20" aria-hidden="true">
          <rect x="2" y="2" width="16" height="16" fill="currentColor" />
        </svg>
        Stop
      </button>
      <ViewLink view={{ kind: 'found', item: item?.id ?? null }}>
        <svg viewBox="0 0 20 20" aria-hidden="true">
          <circle cx="10" cy="10" r="8" fill="none" stroke="currentColor" strokeWidth="2" />
          <path d="M10 5V11M10 13.5V15.5" stroke="currentColor" strokeWidth="2" />
        </svg>
        Found something
      </ViewLink>
    </div>
  );
}
