'use client';

import { useState } from 'react';
import { Field } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { useDoing } from '../../quoting/use-answer.ts';
import { FormFrame } from './form-frame.tsx';
import { PromiseBackDocument } from './outside-documents.ts';
import type { OutsideJob } from './outside-job.ts';

/** Another word on when it comes back. */
export function PromiseForm({ job, onBack }: { job: OutsideJob; onBack: () => void }) {
  const [promisedOn, setPromisedOn] = useState(job.promisedOn ?? '');
  const [saidBy, setSaidBy] = useState(job.vendor);
  const saying = useDoing(
    async () =>
      (
        await request(PromiseBackDocument, {
          input: { jobId: job.id, promisedOn: promisedOn === '' ? null : promisedOn, saidBy },
        })
      ).result,
    onBack,
  );
  return (
    <FormFrame
      name={`When “${job.what}” comes back`}
      yes="That is the word now"
      ready={saidBy.trim() !== ''}
      doing={saying}
      onYes={() => saying.mutate(undefined)}
      onBack={onBack}
    >
      <Field
        label="Promised for"
        type="date"
        hint="Left out: nobody can say any more."
        value={promisedOn}
        onChange={(event) => setPromisedOn(event.currentTarget.value)}
      />
      <Field
        label="Who said so"
        maxLength={120}
        value={saidBy}
        onChange={(event) => setSaidBy(event.currentTarget.value)}
      />
    </FormFrame>
  );
}
