import type { RevisionData } from './quote-documents.ts';
import styles from './quote-sheet.module.css';

/** What was learned on this work before: why the hours may be better, or worse, than they were. For the desk, not offered. */
export function LearnedBefore({ lines }: { lines: RevisionData['lines'] }) {
  const known = lines
    .map(({ position, title, learned }) => ({
      position,
      title,
      notes: learned.filter(({ stillTrue }) => stillTrue),
    }))
    .filter(({ notes }) => notes.length > 0);
  if (known.length === 0) return null;
  return (
    <section className={styles.part}>
      <h2>What we learned last time</h2>
      <ul>
        {known.map(({ position, title, notes }) => (
          <li key={position}>
            {title}
            <ul>
              {notes.map(({ id, words, by }) => (
                <li key={id}>
                  {words} ({by.name})
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}
