import { Button } from '../../components/Button.tsx';
import { Stamp } from '../../components/Stamp.tsx';
import { dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import styles from './records.module.css';
import type { Entry } from './records-documents.ts';
import { certificateWords, nameOfBook, outcomeWords, recordHours } from './records-words.ts';

/** The words of an entry, line for line as they are kept. */
export function EntryText({ text, unfinished = false }: { text: string; unfinished?: boolean }) {
  const [entry = '', ...papers] = text.split('\n\n');
  return (
    <div className={styles.paper} data-unfinished={unfinished ? '' : undefined}>
      {unfinished ? <p className={styles.unfinished}>Not complete: so far it would say</p> : null}
      {[entry, ...papers].map((paper, index) => (
        <div key={paper} className={index === 0 ? styles.entry : styles.list}>
          {paper.split('\n').map((line, at) => (
            <p key={`${at} ${line}`}>{line}</p>
          ))}
        </div>
      ))}
    </div>
  );
}

/** A signed entry with its stamp, as it goes into the book. */
export function EntryPaper({
  entry,
  timeZone,
  onCorrect,
}: {
  entry: Entry;
  timeZone: string;
  onCorrect?: () => void;
}) {
  const corrected = entry.corrections.length > 0;
  return (
    <article className={styles.signed} aria-label={`Signed entry, ${nameOfBook(entry.book)}`}>
      <div className={styles.signedHead}>
        <h3>{nameOfBook(entry.book)}</h3>
        <Stamp
          kind={certificateWords[entry.certificateKind]}
          name={entry.signature}
          number={entry.certificateNumber}
          date={dayText(entry.signedAt, timeZone)}
        />
      </div>
      {corrected ? (
        <p className={styles.caution}>
          Corrected by a later entry below. It stays here as it was signed.
        </p>
      ) : null}
      <details className={styles.over}>
        <summary>What was signed</summary>
        <EntryText text={entry.text} />
      </details>
      <p className={styles.quiet}>
        Signed {dayAndTimeText(entry.signedAt, timeZone)} · {outcomeWords[entry.outcome]} ·{' '}
        {recordHours(entry.tisHundredths)} h
        {entry.chainHash == null ? null : (
          <>
            {' '}
            · chain <span className={styles.hash}>{entry.chainHash.slice(0, 16)}</span>
          </>
        )}
      </p>
      <div className={styles.row} data-screen-only="">
        <a href={`/records/entries/${entry.id}`}>Print for the book</a>
        {onCorrect === undefined ? null : (
          <Button kind="plain" onClick={onCorrect}>
            Correct it
          </Button>
        )}
      </div>
    </article>
  );
}
