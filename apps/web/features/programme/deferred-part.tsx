'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { DueName } from './due-name.tsx';
import styles from './programme.module.css';
import { type Deferred, SettleFindingDocument } from './programme-documents.ts';
import { dueWords, leftWords, stateWords } from './programme-words.ts';

/** Findings that were put off: until when, and onto the next quote with one touch. */
export function DeferredPart({
  deferred,
  settles,
  chosen,
  onTick,
}: {
  deferred: readonly Deferred[];
  settles: boolean;
  chosen?: readonly string[];
  onTick?: (findingId: string, on: boolean) => void;
}) {
  if (deferred.length === 0) return null;
  return (
    <>
      <h3>Put off</h3>
      <ol className={styles.lines} data-ticks={onTick ? '' : undefined}>
        {deferred.map((finding) => (
          <li key={finding.findingId} className={styles.line}>
            <DueName
              id={finding.findingId}
              words={finding.title}
              under={`${finding.class} · finding ${finding.number} of order ${finding.orderNumber}`}
              ticked={chosen?.includes(finding.findingId)}
              onTick={
                onTick && finding.quotable ? (on) => onTick(finding.findingId, on) : undefined
              }
            />
            <p className={styles.state} data-state={finding.state ?? 'unknown'}>
              {finding.state == null ? 'put off' : stateWords[finding.state]}
            </p>
            <p className={styles.figures}>{dueWords(finding)}</p>
            <p className={styles.figures}>{leftWords(finding)}</p>
            <div className={styles.because}>
              <p>
                {finding.because}: {finding.reason}
              </p>
              {finding.inoperative == null ? null : <p>Left inoperative. {finding.inoperative}</p>}
              {settles ? (
                <div data-screen-only="">
                  <More words={`${finding.title} needs nothing any more`}>
                    <SettleForm finding={finding} />
                  </More>
                </div>
              ) : null}
            </div>
          </li>
        ))}
      </ol>
    </>
  );
}

function SettleForm({ finding: { findingId, title } }: { finding: Deferred }) {
  const [words, setWords] = useState('');
  const settle = useDoing(
    async (said: string) =>
      (await request(SettleFindingDocument, { findingId, words: said })).settleFinding,
  );
  return (
    <fieldset className={styles.form} aria-label={`${title} needs nothing any more`}>
      <Field
        label="How it was put right, on which order; or why it needs nothing"
        maxLength={2000}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      {settle.error === null ? null : (
        <ErrorNote head="Not recorded">{settle.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button
          disabled={words.trim().length < 3}
          busy={settle.isPending ? 'Recording' : undefined}
          onClick={() => settle.mutate(words)}
        >
          Record it
        </Button>
      </div>
    </fieldset>
  );
}
