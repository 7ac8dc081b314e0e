'use client';

import { Tick } from '../../components/Choice.tsx';
import { More } from '../../components/More.tsx';
import { CompliedForm } from './complied-form.tsx';
import styles from './programme.module.css';
import type { DueLine } from './programme-documents.ts';
import { dueWords, kindWords, leftWords, projectionWords, stateWords } from './programme-words.ts';

/** Something that falls due, with its tick for a quote and the form that says it was done. */
export function DueRow({
  line,
  records,
  ticked,
  onTick,
}: {
  line: DueLine;
  records: boolean;
  ticked?: boolean;
  onTick?: (on: boolean) => void;
}) {
  const { state, title, number, revision, kind, part, source } = line;
  const named = [title, number, revision].filter((word) => word !== '').join(' · ');
  return (
    <li className={styles.line}>
      <div className={styles.named}>
        {onTick === undefined ? (
          <p>{named}</p>
        ) : (
          <Tick
            name={`quote-${line.itemId}`}
            words={named}
            ticked={ticked ?? false}
            onTick={onTick}
          />
        )}
        <p className={styles.quiet}>
          {[kindWords[kind], part, source]
            .filter((word) => word != null && word !== '')
            .join(' · ')}
        </p>
      </div>
      <p className={styles.state} data-state={state ?? 'unknown'}>
        {state == null ? 'cannot be reckoned' : stateWords[state]}
      </p>
      <p className={styles.figures}>{dueWords(line)}</p>
      <p className={styles.figures}>{leftWords(line)}</p>
      <p className={styles.because}>
        {line.because}
        {projectionWords(line) === '' ? '' : `; ${projectionWords(line)}`}
      </p>
      {records ? (
        <div className={styles.because} data-screen-only="">
          <More words={`Record that ${title} was done`}>
            <CompliedForm line={line} />
          </More>
        </div>
      ) : null}
    </li>
  );
}
