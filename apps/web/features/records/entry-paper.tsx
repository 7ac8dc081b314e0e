import { Button } from '../../components/Button.tsx';
import { Stamp } from '../../components/Stamp.tsx';
import { dayAndTimeText, dayText } from '../../lib/figures/dates.ts';
import type { Entry } from './entry-documents.ts';
import styles from './records.module.css';
import { certificateWords, nameOfBook, outcomeWords, recordHours } from './records-words.ts';

/** The words of an entry, line for line as they are kept; struck through where a later entry corrects it, and readable still. */
export function EntryText({
  text,
  unfinished = false,
  struck = false,
}: {
  text: string;
  unfinished?: boolean;
  struck?: boolean;
}) {
  const [entry = '', ...papers] = text.split('\n\n');
  return (
    <div className={styles.paper} data-unfinished={unfinished ? '' : undefined}>
      {unfinished ? <p className={styles.unfinished}>Not complete: so far it would say</p> : null}
      {[entry, ...papers].map((paper, index) => (
        <div key={paper} className={index === 0 ? styles.entry : styles.list}>
          {paper.split('\n').map((line, at) => (
            <p key={`${at} ${line}`}>{struck ? <del>{line}</del> : line}</p>
          ))}
        </div>
      ))}
    </div>
  );
}

/** Which later entry strikes this one through. */
export function StruckNote({ entry, timeZone }: { entry: Entry; timeZone: string }) {
  const by = entry.corrections[0];
  if (by === undefined) return null;
  return (
    <p className={styles.caution}>
      Struck through: corrected by{' '}
      <a href={`/records/entries/${by.id}`}>
        the entry that {by.signedBy.name} signed {dayAndTimeText(by.signedAt, timeZone)}
      </a>
      . Its words stay readable as they were signed.
    </p>
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
      {corrected ? <StruckNote entry={entry} timeZone={timeZone} /> : null}
      <details className={styles.over}>
        <summary>What was signed</summary>
        <EntryText text={entry.text} struck={corrected} />
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
