import styles from './part-against.module.css';

/** What somebody answered for when a part was issued, wherever the part is shown. */
export function PartAgainst({
  words,
}: {
  /** Undefined where a telephone kept the part before this was asked for. */
  words: string | null | undefined;
}) {
  return words ? <span className={styles.against}> {words}</span> : null;
}
