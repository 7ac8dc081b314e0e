import type { ReactNode } from 'react';
import styles from './TitleBlock.module.css';

export interface TitleCell {
  label: string;
  value: ReactNode;
  /** A third of the row unless said. */
  span?: 'third' | 'half' | 'whole';
  /** Set in mono: numbers, registrations, dates. */
  figures?: boolean;
}

/** What a sheet is, of which aircraft, its number and revision, who and when, and its stamp. */
export interface TitleBlockContent {
  what: string;
  cells: readonly TitleCell[];
  stamp?: ReactNode;
}

/** Bottom right of every sheet. The Sheet draws it; it stands alone on the owner's pages. */
export function TitleBlock({ what, cells, stamp }: TitleBlockContent) {
  const all: readonly TitleCell[] = [{ label: 'Title', value: what, span: 'whole' }, ...cells];
  return (
    <div className={styles.block}>
      <div className={styles.clip}>
        <dl className={styles.cells}>
          {all.map((cell) => (
            <div
              className={styles.cell}
              key={cell.label}
              data-span={cell.span}
              data-figures={cell.figures === true ? '' : undefined}
            >
              <dt className={styles.label}>{cell.label}</dt>
              <dd className={styles.value}>{cell.value}</dd>
            </div>
          ))}
        </dl>
      </div>
      {stamp === undefined ? null : <div className={styles.stamp}>{stamp}</div>}
    </div>
  );
}
