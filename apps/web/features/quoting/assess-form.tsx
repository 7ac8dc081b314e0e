'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField } from '../../components/Field.tsx';
import type { AssessFindingInput, FindingClass } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import type { FindingData } from './finding-on-sheet.ts';
import styles from './finding-part.module.css';
import { AssessFindingDocument } from './order-documents.ts';
import { useDoing } from './use-answer.ts';

const classes = [
  { value: 'unairworthy', words: 'Unairworthy', note: 'goes on the signed list, 14 CFR 43.11(b)' },
  { value: 'discrepancy', words: 'Discrepancy', note: 'goes on the signed list, 14 CFR 43.11(b)' },
  { value: 'observation', words: 'Observation', note: 'worth telling, nothing more' },
];

/** A qualified person gives the class and says what it means, in words that the owner reads. */
export function AssessForm({ finding }: { finding: FindingData }) {
  const [given, setGiven] = useState<FindingClass>(finding.class);
  const [meaning, setMeaning] = useState(finding.meaning);
  const assess = useDoing(
    async (input: AssessFindingInput) =>
      (await request(AssessFindingDocument, { input })).assessFinding,
  );
  return (
    <div className={styles.form}>
      <Choices
        legend="Assess it"
        name={`class-${finding.number}`}
        value={given}
        onChoose={(value) => setGiven(value as FindingClass)}
        options={classes}
      />
      <LongField
        label="What it means"
        hint="In words that its owner understands"
        rows={3}
        maxLength={2000}
        value={meaning}
        onChange={(event) => setMeaning(event.currentTarget.value)}
      />
      {assess.error === null ? null : (
        <ErrorNote head="Not assessed">{assess.error.message}</ErrorNote>
      )}
      <div>
        <Button
          kind="primary"
          disabled={meaning.trim().length < 3}
          busy={assess.isPending ? 'Recording' : undefined}
          onClick={() => assess.mutate({ findingId: finding.id, class: given, meaning })}
        >
          Record the assessment
        </Button>
      </div>
    </div>
  );
}
