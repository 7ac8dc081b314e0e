'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import type { SayOutcomeInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './diagnosis.module.css';
import { SayOutcomeDocument } from './documents.ts';
import { nothingChosen, outcomeInput, outcomeWrong } from './outcome-chosen.ts';
import { OutcomeField } from './outcome-field.tsx';
import type { FindingMayBe } from './shown.ts';

/** What the finding turned out to be: said once it is corrected, or before where nothing was wrong. */
export function TurnedOut({
  finding,
  symptom,
  may,
  size,
  timeZone,
}: {
  finding: FindingMayBe;
  symptom: string;
  /** Whether the reader may say it. */
  may: boolean;
  size: 'desk' | 'bench';
  timeZone: string;
}) {
  const [chosen, setChosen] = useState(nothingChosen);
  const [wrong, setWrong] = useState<string>();
  const say = useDoing(
    async (input: SayOutcomeInput) => (await request(SayOutcomeDocument, { input })).result,
    () => setChosen(nothingChosen),
  );
  const corrected = finding.state === 'corrected';
  const { turnedOut } = finding;
  const send = () => {
    const missing = outcomeWrong(chosen) ?? undefined;
    setWrong(missing);
    const input = outcomeInput(finding.id, symptom, chosen);
    if (missing === undefined && input !== null) say.mutate(input);
  };
  return (
    <section className={styles.part} aria-label="What it turned out to be">
      <h3>What it turned out to be</h3>
      {turnedOut === null ? null : (
        <p>
          {turnedOut.says}{' '}
          <span className={styles.second}>
            {turnedOut.by.name}, {dayAndTimeText(turnedOut.at, timeZone)}
          </span>
        </p>
      )}
      {may ? (
        <>
          {corrected ? null : (
            <p className={styles.second}>
              What was wrong is said when the correction is done; that nothing is wrong, at any
              time.
            </p>
          )}
          <OutcomeField
            findingId={finding.id}
            onlyNormal={!corrected}
            chosen={chosen}
            onChosen={setChosen}
            wrong={wrong}
          />
          {say.error ? <ErrorNote head="Not recorded">{say.error.message}</ErrorNote> : null}
          <div>
            <Button
              size={size}
              disabled={chosen.choice === ''}
              busy={say.isPending ? 'Recording' : undefined}
              onClick={send}
            >
              Record it
            </Button>
          </div>
        </>
      ) : null}
    </section>
  );
}
