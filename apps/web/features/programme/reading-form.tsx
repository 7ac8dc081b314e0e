'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { Meter, RecordReadingInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { sendPiece } from '../work/send-photo.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import styles from './programme.module.css';
import { RecordReadingDocument } from './times-documents.ts';
import { hundredthsOf } from './typed-hours.ts';

const meters = [
  { value: 'tachometer', words: 'tachometer' },
  { value: 'engine_on', words: 'engine-on meter' },
  { value: 'airborne', words: 'airborne meter' },
];
const empty = { reading: '', on: '', old: '', reason: '' };

/** Sends a photo whole, and answers its id. */
async function sent(photo: File): Promise<string> {
  const id = clientId();
  for (;;) {
    const { photoId } = await sendPiece({ id, photo });
    if (photoId !== null) return photoId;
  }
}

/** A meter as somebody reads it: the figure is typed, the photo is kept as evidence. */
export function ReadingForm({ aircraftId, newest }: { aircraftId: string; newest: Meter }) {
  const [chosen, setChosen] = useState<Meter | null>(null);
  const meter = chosen ?? newest;
  const [typed, setTyped] = useState(empty);
  const [counts, setCounts] = useState(emptyCounts);
  const [replaced, setReplaced] = useState(false);
  const [photo, setPhoto] = useState<File | null>(null);
  const [asked, setAsked] = useState(false);
  const record = useDoing(
    async (input: RecordReadingInput) => {
      const photoId = photo === null ? {} : { photoId: await sent(photo) };
      const answer = (await request(RecordReadingDocument, { input: { ...input, ...photoId } }))
        .recordReading;
      if (answer.__typename === 'Refusal') setAsked(true);
      return answer;
    },
    () => {
      setTyped(empty);
      setCounts(emptyCounts);
      setReplaced(false);
      setPhoto(null);
      setAsked(false);
    },
  );
  const text = (key: keyof typeof empty) => ({
    value: typed[key],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setTyped((before) => ({ ...before, [key]: value }));
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const counted = countsTyped(counts);
    record.mutate({
      ...(counted ? { counts: counted } : {}),
      ...{ aircraftId, meter, readingHundredths: hundredthsOf(typed.reading) },
      ...(typed.on === '' ? {} : { readOn: typed.on }),
      ...(replaced ? { oldReadingHundredths: hundredthsOf(typed.old) } : {}),
      ...(typed.reason.trim() === '' ? {} : { reason: typed.reason }),
    });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="A meter reading">
      <div className={styles.pair}>
        <Select
          label="Meter"
          options={meters}
          value={meter}
          onChange={(event) => setChosen(event.currentTarget.value as Meter)}
        />
        <Field
          label={replaced ? 'The new meter shows' : 'It shows'}
          hint="Hours, such as 1234.5"
          required
          inputMode="decimal"
          {...text('reading')}
        />
        <Field label="Read on" hint="Left empty: today" type="date" {...text('on')} />
        <CountFields
          typed={counts}
          onTyped={setCounts}
          label={(counter) =>
            `${counter[0]?.toUpperCase()}${counter.slice(1)} in all, where counted`
          }
        />
        <Field
          label="Photo of the meter"
          hint="Kept as evidence; the figure above is what counts"
          type="file"
          accept="image/jpeg,image/png,image/webp,image/heic,image/heif"
          onChange={(event) => setPhoto(event.currentTarget.files?.[0] ?? null)}
        />
      </div>
      <Tick
        name="replaced"
        words="The meter was replaced"
        note="The time in service runs on from where the old one stood."
        ticked={replaced}
        onTick={setReplaced}
      />
      {replaced ? (
        <Field
          label="The old meter showed, when it came out"
          required
          inputMode="decimal"
          {...text('old')}
        />
      ) : null}
      {asked || typed.reason !== '' ? (
        <Field
          label="Why it is right"
          hint="Of a reading or a count that goes backwards or jumps; kept under your name"
          maxLength={500}
          {...text('reason')}
        />
      ) : null}
      {record.error === null ? null : (
        <ErrorNote head="Not recorded">{record.error.message}</ErrorNote>
      )}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={typed.reading.trim() === ''}
          busy={record.isPending ? 'Recording' : undefined}
        >
          Record the reading
        </Button>
      </div>
    </form>
  );
}
