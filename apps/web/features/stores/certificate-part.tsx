'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { dayText } from '../../lib/figures/dates.ts';
import type { LotOnSheet } from './lot-documents.ts';
import { MOST_BYTES, sendDocument } from './send-document.ts';
import styles from './stores.module.css';

/** The release certificate of a lot, to open, and the way in for one that is still on paper. */
export function CertificatePart({ lot, timeZone }: { lot: LotOnSheet; timeZone: string }) {
  const { tag, documents, hasTrace } = lot;
  return (
    <section className={styles.part} aria-labelledby="certificate">
      <h2 id="certificate" className={styles.caption}>
        Release certificate
      </h2>
      {hasTrace ? null : (
        <p className={styles.ochre}>
          None came with it: neither its number nor a document is kept. It is issued only for a
          reason, under the name of whoever issues it.
        </p>
      )}
      {tag === '' ? null : (
        <p>
          Number <span className={styles.figures}>{tag}</span>
        </p>
      )}
      {documents.length === 0 ? null : (
        <ul className={styles.documents}>
          {documents.map(({ id, url, name, mime, bytes, at, by }) => (
            <li key={id}>
              <a href={url} target="_blank" rel="noreferrer">
                {name}
              </a>{' '}
              <span className={styles.second}>
                {mime === 'image/jpeg' ? 'photo' : 'PDF'}, {Math.max(1, Math.round(bytes / 1024))}{' '}
                kB, kept by {by.name} on {dayText(at, timeZone)}
              </span>
            </li>
          ))}
        </ul>
      )}
      <KeepDocument lotId={lot.id} />
    </section>
  );
}

function KeepDocument({ lotId }: { lotId: string }) {
  const client = useQueryClient();
  const form = useRef<HTMLFormElement>(null);
  const [file, setFile] = useState<File | null>(null);
  const tooLarge =
    file !== null && file.size > MOST_BYTES
      ? `${file.name} has ${Math.ceil(file.size / 1024 / 1024)} MB: at most 10 MB are taken.`
      : undefined;
  const keep = useMutation({
    mutationFn: (document: File) => sendDocument(encodeURIComponent(lotId), document),
    onSuccess: async () => {
      setFile(null);
      form.current?.reset();
      await client.invalidateQueries();
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (file !== null && tooLarge === undefined) keep.mutate(file);
  };
  return (
    <form
      ref={form}
      className={styles.keep}
      onSubmit={submit}
      data-screen-only=""
      aria-label="Keep the certificate"
    >
      <Field
        label="The certificate, photographed or scanned"
        hint="A PDF, or a photo as JPEG, of at most 10 MB; page by page where it has several"
        type="file"
        accept="application/pdf,image/jpeg"
        wrong={tooLarge}
        onChange={(event) => setFile(event.currentTarget.files?.[0] ?? null)}
      />
      {keep.error === null ? null : <ErrorNote head="Not kept">{keep.error.message}</ErrorNote>}
      <div className={styles.ways}>
        <Button
          type="submit"
          disabled={file === null || tooLarge !== undefined}
          busy={keep.isPending ? 'Sending' : undefined}
        >
          Keep it with the lot
        </Button>
      </div>
    </form>
  );
}
