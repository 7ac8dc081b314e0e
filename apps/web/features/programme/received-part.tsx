'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import { dayText } from '../../lib/figures/dates.ts';
import { SaidNo } from '../quoting/use-answer.ts';
import styles from './programme.module.css';
import type { AircraftOnRecord, Received } from './programme-documents.ts';

/** Records that came with the aircraft from another shop, to read; and the way in for more. */
export function ReceivedPart({
  aircraft,
  timeZone,
  takesIn,
}: {
  aircraft: AircraftOnRecord;
  timeZone: string;
  takesIn: boolean;
}) {
  const { id, registration, received } = aircraft;
  if (received.length === 0 && !takesIn) return null;
  return (
    <section className={styles.part} aria-labelledby="received">
      <h2 id="received">Records from other shops</h2>
      {received.length === 0 ? (
        <p className={styles.quiet}>None came with {registration}.</p>
      ) : (
        received.map((archive) => (
          <OneArchive key={archive.id} archive={archive} timeZone={timeZone} />
        ))
      )}
      {takesIn ? <TakeIn aircraftId={id} /> : null}
    </section>
  );
}

function OneArchive({ archive, timeZone }: { archive: Received; timeZone: string }) {
  const { shop, sealedAt, key, compared, links, fault, receivedAt, receivedBy, records } = archive;
  return (
    <article className={styles.archive} aria-label={`Records from ${shop}`}>
      <h3>{shop}</h3>
      <p>
        {links} links, sealed {dayText(sealedAt, timeZone)}, taken in by {receivedBy.name} on{' '}
        {dayText(receivedAt, timeZone)}.
      </p>
      {fault == null ? (
        <p>The chain and every signature hold, checked just now.</p>
      ) : (
        <ErrorNote head="It does not hold any more">{fault}</ErrorNote>
      )}
      <p className={compared ? styles.quiet : styles.caution}>
        {compared
          ? 'Its key was compared with a fingerprint known from elsewhere. '
          : 'Nobody compared its key with a printed entry: whose it is, is not known. '}
        <span className={styles.hash}>{key}</span>
      </p>
      <More words={`Read its ${records.length} records`}>
        <ol className={styles.points}>
          {records.map((record) => (
            <li key={record.number}>
              {record.kind === 'entry' ? (
                <>
                  <p>
                    <b>
                      {record.number} · {record.completedOn} · signed {record.signature}
                    </b>
                  </p>
                  {(record.text ?? '').split('\n').map((line, at) => (
                    <p key={`${at} ${line}`}>{line}</p>
                  ))}
                </>
              ) : (
                <p>
                  {record.number} · {recordWords[record.kind] ?? record.kind}
                  {record.leftOut ? ', its words left out' : ''}
                </p>
              )}
            </li>
          ))}
        </ol>
      </More>
    </article>
  );
}

const recordWords: Record<string, string> = {
  decision: 'a decision of the owner',
  flight_check: 'what was said of a flight after work (91.407)',
  inoperative: 'what was said of inoperative equipment (91.213(d))',
};

/** What forwards to the API takes no more of one request. */
const MOST_BYTES = 64_000_000;

function TakeIn({ aircraftId }: { aircraftId: string }) {
  const client = useQueryClient();
  const [file, setFile] = useState<File | null>(null);
  const [tooLarge, setTooLarge] = useState<string>();
  const [keys, setKeys] = useState('');
  const take = useMutation({
    mutationFn: async (archive: File) => {
      const response = await fetch(
        `/archives/${encodeURIComponent(aircraftId)}?keys=${encodeURIComponent(keys)}`,
        {
          method: 'POST',
          credentials: 'same-origin',
          headers: { 'x-fairlead': '1', 'content-type': 'application/x-tar' },
          body: archive,
        },
      );
      if (response.ok) return;
      const said = (await response.json().catch(() => null)) as {
        error?: { message: string };
      } | null;
      throw new SaidNo(said?.error?.message ?? 'Nothing was kept: the shop did not answer.');
    },
    onSuccess: async () => {
      setFile(null);
      await client.invalidateQueries();
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (file === null) return;
    const large = file.size > MOST_BYTES;
    setTooLarge(
      large
        ? `${file.name} has ${Math.ceil(file.size / 1e6)} MB: needed is at most ${MOST_BYTES / 1e6} MB.`
        : undefined,
    );
    if (!large) take.mutate(file);
  };
  return (
    <form
      className={styles.form}
      onSubmit={submit}
      data-screen-only=""
      aria-label="Records from another shop"
    >
      <div className={styles.pair}>
        <Field
          label="An archive that came with the aircraft"
          hint={`A .tar of at most ${MOST_BYTES / 1e6} MB`}
          type="file"
          wrong={tooLarge}
          accept=".tar,application/x-tar"
          onChange={(event) => setFile(event.currentTarget.files?.[0] ?? null)}
        />
        <Field
          label="Fingerprint on its printed entries"
          hint="Left empty: nobody compared the key"
          maxLength={200}
          value={keys}
          onChange={(event) => setKeys(event.currentTarget.value)}
        />
      </div>
      {take.error === null ? null : <ErrorNote head="Not taken in">{take.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button
          type="submit"
          disabled={file === null}
          busy={take.isPending ? 'Checking' : undefined}
        >
          Check it and take it in
        </Button>
      </div>
    </form>
  );
}
