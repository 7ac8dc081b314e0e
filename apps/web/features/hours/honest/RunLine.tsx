'use client';

import { Button } from '../../../components/Button.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { request } from '../../../graphql/request.ts';
import { dayAndTimeText } from '../../../lib/figures/dates.ts';
import { useChange } from '../use-change.ts';
import styles from './honest.module.css';
import { AskBacktestDocument, type Honesty } from './honest-document.ts';

/** How far the back-test is that was asked for; the manager may ask for one at once. */
export function RunLine({
  honesty: { run, newest },
  timeZone,
  mayAsk,
}: {
  honesty: Honesty;
  timeZone: string;
  mayAsk: boolean;
}) {
  const asking = useChange(
    ['hours', 'honest'],
    async (_: undefined) => (await request(AskBacktestDocument)).result,
  );
  const running = run?.state === 'running' && !run.standsStill;
  return (
    <div className={styles.run}>
      {run?.state === 'running' ? (
        <div role="status" className={styles.progress}>
          <p>
            {run.standsStill
              ? 'The computing stands still. '
              : `Being computed: month ${run.monthsDone} of ${run.monthsAll}. `}
            {newest ? 'Below is the one before.' : ''}
          </p>
          <svg aria-hidden="true">
            <line x1="0" x2="100%" y1="6" y2="6" />
            <line
              data-done=""
              x1="0"
              x2={`${(run.monthsDone / Math.max(1, run.monthsAll)) * 100}%`}
              y1="6"
              y2="6"
            />
          </svg>
        </div>
      ) : run?.state === 'waiting' ? (
        <p role="status">
          {new Date(String(run.dueAt)) <= new Date()
            ? 'Asked for; it begins when the worker is free.'
            : `Asked for after a fit; it begins on ${dayAndTimeText(String(run.dueAt), timeZone)}.`}
        </p>
      ) : null}
      {run?.state === 'failed' ? <ErrorNote head="Not computed">{run.problem}</ErrorNote> : null}
      {asking.sentence === undefined ? null : (
        <ErrorNote head="Not asked">{asking.sentence}</ErrorNote>
      )}
      {mayAsk && !running ? (
        <Button onClick={() => asking.go(undefined)} busy={asking.busy ? 'Asking' : undefined}>
          {newest ? 'Compute it anew now' : 'Compute it now'}
        </Button>
      ) : null}
    </div>
  );
}
