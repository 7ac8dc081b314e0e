'use client';

import { More } from '../../components/More.tsx';
import { CompliedForm } from './complied-form.tsx';
import { DueName } from './due-name.tsx';
import styles from './programme.module.css';
import type { DueLine } from './programme-documents.ts';
import { dueWords, kindWords, leftWords, projectionWords, stateWords } from './programme-words.ts';
import { RunLine } from './run-line.tsx';

/** Something that falls due, with its tick for a quote and the form that says it was done. */
export function DueRow({
  line,
  records,
  quotes,
  by,
  ticked,
  onTick,
}: {
  line: DueLine;
  records: boolean;
  quotes: boolean;
  /** The package that it is quoted by. */
  by?: string | undefined;
  ticked?: boolean;
  onTick?: (on: boolean) => void;
}) {
  const { state, title, number, revision, kind, part, source } = line;
  return (
    <li className={styles.line}>
      <DueName
        id={line.itemId}
        words={[title, number, revision].filter((word) => word !== '').join(' · ')}
        under={[kindWords[kind], part, source]
          .filter((word) => word != null && word !== '')
          .join(' · ')}
        ticked={ticked}
        onTick={onTick}
      />
      <p className={styles.state} data-state={state ?? 'unknown'}>
        {state == null ? 'cannot be reckoned' : stateWords[state]}
      </p>
      <p className={styles.figures}>{dueWords(line)}</p>
      <p className={styles.figures}>
        {leftWords(line)}
        <RunLine line={line} />
      </p>
      <p className={styles.because}>
        {line.because}
        {projectionWords(line) === '' ? '' : `; ${projectionWords(line)}`}
        {quotes ? quotedBy(line, by) : ''}
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

function quotedBy({ quotable }: DueLine, by: string | undefined): string {
  if (quotable) return '';
  if (by !== undefined) return `. Quoted by the package “${by}”.`;
  return '. No work of the shop is named for it, so it is not quoted from here.';
}
