import styles from './records.module.css';
import type { StillOpen } from './still-open.ts';

/** What is missing, before anything else on the sheet: each row leads to the first of its kind. */
export function StillOpenList({ rows }: { rows: readonly StillOpen[] }) {
  return (
    <section className={styles.open} aria-labelledby="still-open">
      <h2 id="still-open">Still open</h2>
      {rows.length === 0 ? (
        <p>
          Everything is initialled and signed. <a href="#release">Release</a> is what is left.
        </p>
      ) : (
        <ol>
          {rows.map(({ words, href, first }) => (
            <li key={href}>
              <a href={href}>{words}</a>
              <span>{first}</span>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}
