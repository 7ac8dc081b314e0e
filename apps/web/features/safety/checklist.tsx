'use client';

import { Button } from '../../components/Button.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import type { ItemOnSheet } from '../work/item-documents.ts';
import styles from './safety.module.css';

/** The lines of an item, each initialled by one touch of whoever did it. There is no touch for several. */
export function Checklist({
  checklist,
  initials,
  open,
  timeZone,
  onLine,
}: {
  checklist: ItemOnSheet['checklist'];
  /** Of the person at the bench. */
  initials: string;
  /** Whether the item is still worked at. */
  open: boolean;
  timeZone: string;
  onLine: (line: number, kind: 'initialled' | 'withdrawn') => void;
}) {
  if (checklist.length === 0) return null;
  const left = checklist.filter((line) => line.initials === null).length;
  return (
    <section className={styles.part} aria-labelledby="checklist">
      <h2 id="checklist">Checklist</h2>
      <p className={styles.second}>
        {left === 0
          ? 'Every line is initialled.'
          : `${left} of ${checklist.length} lines without initials: the item is finished after the last.`}
      </p>
      <ol className={styles.lines}>
        {checklist.map(({ number, words, initials: given, by, at }) => (
          <li key={number} className={styles.check}>
            <span className={styles.number}>{number}</span>
            <div>
              <p>{words}</p>
              {given === null ? null : (
                <p className={styles.second}>
                  {by}, {at === null ? '' : dayAndTimeText(at, timeZone)}
                </p>
              )}
            </div>
            {given !== null ? (
              <span className={styles.initials}>{given}</span>
            ) : open ? (
              <button
                type="button"
                className={styles.press}
                aria-label={`Initial line ${number}: ${words}`}
                onClick={() => onLine(number, 'initialled')}
              >
                {initials}
              </button>
            ) : (
              <span className={styles.initials} />
            )}
            {given !== null && open ? (
              <details>
                <summary className={styles.summary}>
                  <span>
                    Not done after all<span className="spoken">: line {number}</span>
                  </span>
                </summary>
                <Button onClick={() => onLine(number, 'withdrawn')}>Take the initials back</Button>
              </details>
            ) : null}
          </li>
        ))}
      </ol>
    </section>
  );
}
