'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { PutOffFindingInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import styles from './finding-part.module.css';
import { PutOffFindingDocument } from './order-documents.ts';
import { useDoing } from './use-answer.ts';

/** Leaves a finding for a later visit; its class stays, and so does its place on the signed list. */
export function PutOffForm({ findingId }: { findingId: string }) {
  const [reason, setReason] = useState('');
  const putOff = useDoing(
    async (input: PutOffFindingInput) =>
      (await request(PutOffFindingDocument, { input })).putOffFinding,
  );
  return (
    <details className={styles.form}>
      <summary>Put it off</summary>
      <div className={styles.form}>
        <Field
          label="Why"
          maxLength={2000}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
        {putOff.error === null ? null : (
          <ErrorNote head="Not put off">{putOff.error.message}</ErrorNote>
        )}
        <div>
          <Button
            disabled={reason.trim().length < 3}
            busy={putOff.isPending ? 'Recording' : undefined}
            onClick={() => putOff.mutate({ findingId, reason })}
          >
            Put it off
          </Button>
        </div>
      </div>
    </details>
  );
}
