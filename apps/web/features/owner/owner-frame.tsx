import type { ReactNode } from 'react';
import { TitleBlock, type TitleBlockContent } from '../../components/TitleBlock.tsx';
import styles from './owner.module.css';

/** The owner's sheet: one column, no words across the top, nothing to sign in to. */
export function OwnerFrame({
  shop,
  title,
  notes,
  titleBlock,
  children,
}: {
  shop: string;
  title: string;
  notes: readonly string[];
  titleBlock: TitleBlockContent | null;
  children: ReactNode;
}) {
  return (
    <div className={styles.frame}>
      <header className={styles.shop}>{shop}</header>
      <main className={styles.body}>
        <h1>{title}</h1>
        {children}
      </main>
      <footer>
        {notes.length === 0 ? null : (
          <div className={styles.notes}>
            <h2>Notes</h2>
            <ol>
              {notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ol>
          </div>
        )}
        {titleBlock === null ? null : (
          <div className={styles.block}>
            <TitleBlock {...titleBlock} />
          </div>
        )}
      </footer>
    </div>
  );
}
