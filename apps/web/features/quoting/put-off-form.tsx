'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { PutOffFindingInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { hundredthsOf } from '../programme/typed-hours.ts';
import styles from './finding-part.module.css';
import { PutOffFindingDocument } from './order-documents.ts';
import { useDoing } from './use-answer.ts';

/** Leaves a finding for a later visit; its class stays, and so does its place on the signed list. */
export function PutOffForm({ findingId }: { findingId: string }) {
  const [reason, setReason] = useState('');
  const [day, setDay] = useState('');
  const [hours, setHours] = useState('');
  const [inspection, setInspection] = useState(false);
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
        <Field
          label="Until this day"
          type="date"
          value={day}
          onChange={(event) => setDay(event.currentTarget.value)}
        />
        <Field
          label="Until this time in service"
          hint="Hours, such as 1234.5"
          inputMode="decimal"
          value={hours}
          onChange={(event) => setHours(event.currentTarget.value)}
        />
        <Tick
          name={`until-inspection-${findingId}`}
          words="Until its next inspection"
          note="Of several, the one that comes first counts; it stands on the due list until then."
          ticked={inspection}
          onTick={setInspection}
        />
        {putOff.error === null ? null : (
          <ErrorNote head="Not put off">{putOff.error.message}</ErrorNote>
        )}
        <div>
          <Button
            disabled={reason.trim().length < 3}
            busy={putOff.isPending ? 'Recording' : undefined}
            onClick={() =>
              putOff.mutate({
                ...{ findingId, reason, untilInspection: inspection },
                ...(day === '' ? {} : { untilOn: day }),
                ...(hours.trim() === '' ? {} : { untilHundredths: hundredthsOf(hours) }),
              })
            }
          >
            Put it off
          </Button>
        </div>
      </div>
    </details>
  );
}
