'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { SaidNo } from '../quoting/use-answer.ts';
import styles from './books.module.css';
import type { ExemptPayer } from './exemption-documents.ts';

const nothing = { whose: '', category: 'parts', from: '', until: '', reason: '' };

/** An exemption from tax of a payer or of one of their aircraft, sent together with the paper that says so. */
export function AddExemptionForm({ payer }: { payer: ExemptPayer }) {
  const client = useQueryClient();
  const form = useRef<HTMLFormElement>(null);
  const [typed, setTyped] = useState(nothing);
  const [paper, setPaper] = useState<File | null>(null);
  const field = (name: keyof typeof typed) => ({
    value: typed[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setTyped((before) => ({ ...before, [name]: value }));
    },
  });
  const keep = useMutation({
    mutationFn: async (file: File | null) => {
      if (file === null)
        throw new SaidNo('Needed is its paper: a PDF, or a photo as JPEG, of at most 10 MB.');
      const { whose, ...terms } = typed;
      const query = new URLSearchParams({
        ...(whose === '' ? { contact: payer.id } : { aircraft: whose }),
        ...terms,
        name: file.name.slice(-160),
      });
      const response = await fetch(`/exemptions?${query.toString()}`, {
        method: 'POST',
        credentials: 'same-origin',
        headers: { 'x-fairlead': '1', 'content-type': 'application/octet-stream' },
        body: file,
      });
      if (response.ok) return;
      const said = (await response.json().catch(() => null)) as {
        error?: { message: string };
      } | null;
      throw new SaidNo(said?.error?.message ?? 'Nothing was kept: the shop did not answer.');
    },
    onSuccess: async () => {
      setTyped(nothing);
      setPaper(null);
      form.current?.reset();
      await client.invalidateQueries();
    },
  });
  function submit(event: FormEvent) {
    event.preventDefault();
    keep.mutate(paper);
  }
  return (
    <form
      ref={form}
      className={styles.ask}
      onSubmit={submit}
      noValidate
      aria-label="Add an exemption"
    >
      <div className={styles.fields}>
        <Select
          label="Whose"
          options={[
            { value: '', words: payer.name },
            ...payer.aircraft.map(({ id, registration }) => ({ value: id, words: registration })),
          ]}
          {...field('whose')}
        />
        <Select
          label="Not taxed on"
          options={['parts', 'labour', 'supplies'].map((value) => ({ value, words: value }))}
          {...field('category')}
        />
        <Field label="From" type="date" required {...field('from')} />
        <Field label="Until" type="date" required {...field('until')} />
        <Field
          label="Reason"
          hint="As it goes onto invoices"
          required
          maxLength={300}
          {...field('reason')}
        />
        <Field
          label="The paper, photographed or scanned"
          hint="A PDF, or a photo as JPEG, of at most 10 MB"
          type="file"
          accept="application/pdf,image/jpeg"
          onChange={(event) => setPaper(event.currentTarget.files?.[0] ?? null)}
        />
      </div>
      {keep.error === null ? null : <ErrorNote head="Not kept">{keep.error.message}</ErrorNote>}
      <div className={styles.ways}>
        <Button type="submit" busy={keep.isPending ? 'Sending' : undefined}>
          Keep the exemption
        </Button>
      </div>
    </form>
  );
}
