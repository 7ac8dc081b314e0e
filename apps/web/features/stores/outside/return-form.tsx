'use client';

import { useState } from 'react';
import { Tick } from '../../../components/Choice.tsx';
import { Field } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { useDoing } from '../../quoting/use-answer.ts';
import { MOST_BYTES, sendDocument } from '../send-document.ts';
import { FormFrame } from './form-frame.tsx';
import { ReturnOutsideDocument } from './outside-documents.ts';
import type { OutsideJob } from './outside-job.ts';

/** That it came back, with the number of its release tag, or its photo; or without, for a reason under a name. */
export function ReturnForm({ job, onBack }: { job: OutsideJob; onBack: () => void }) {
  const [tag, setTag] = useState('');
  const [file, setFile] = useState<File | null>(null);
  const [without, setWithout] = useState(false);
  const [reason, setReason] = useState('');
  const returning = useDoing(async () => {
    if (file !== null) await sendDocument(`outside/${encodeURIComponent(job.id)}`, file);
    return (
      await request(ReturnOutsideDocument, {
        input: { jobId: job.id, tag, withoutTag: without, reason },
      })
    ).result;
  }, onBack);
  const traced = tag.trim() !== '' || file !== null || job.documents.length > 0;
  const tooLarge =
    file !== null && file.size > MOST_BYTES
      ? `${file.name} has ${Math.ceil(file.size / 1024 / 1024)} MB: at most 10 MB are taken.`
      : undefined;
  return (
    <FormFrame
      name={`“${job.what}” came back`}
      words="Whether it may be fitted is decided by whoever signs for it."
      yes="It is back"
      ready={tooLarge === undefined && (traced || (without && reason.trim().length >= 3))}
      doing={returning}
      onYes={() => returning.mutate(undefined)}
      onBack={onBack}
    >
      <Field
        label="Number of its release tag"
        maxLength={60}
        value={tag}
        onChange={(event) => setTag(event.currentTarget.value)}
      />
      <Field
        label="The tag, photographed or scanned"
        hint="A PDF, or a photo as JPEG, of at most 10 MB"
        type="file"
        accept="application/pdf,image/jpeg"
        wrong={tooLarge}
        onChange={(event) => setFile(event.currentTarget.files?.[0] ?? null)}
      />
      {traced ? null : (
        <Tick
          name={`no-tag-${job.id}`}
          words="It came without a tag: I take it back all the same, under my name"
          ticked={without}
          onTick={setWithout}
        />
      )}
      {traced || !without ? null : (
        <Field
          label="Why"
          maxLength={500}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      )}
    </FormFrame>
  );
}
