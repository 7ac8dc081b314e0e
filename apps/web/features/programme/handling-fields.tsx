'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { HandleComponentInput, PartDisposition } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { HandleComponentDocument, type PartOfSheet, type WorkHere } from './part-documents.ts';
import styles from './programme.module.css';

/** What becomes of a part that comes off, in short: 14 CFR 43.10(b), and the methods of (c). */
export const dispositionWords: Record<PartDisposition, string> = {
  goes_back: 'goes back onto this aircraft before it flies (43.10(b))',
  record_keeping: 'kept by a record of numbers and life status',
  tag: 'tagged with numbers and life status',
  non_permanent_marking: 'life status marked on it, not for good',
  permanent_marking: 'life status marked on it for good',
  segregation: 'kept apart from what may be fitted, with a record',
  mutilation: 'made useless beyond repair',
  other: 'another method that the authority accepts',
};

/** In the course of which work. */
export function WorkSelect({
  work,
  value,
  onChoose,
}: {
  work: readonly WorkHere[];
  value: string;
  onChoose: (itemId: string) => void;
}) {
  return (
    <Select
      label="In the course of which work"
      hint="The entry of that work names the part"
      options={[
        { value: '', words: work.length === 0 ? 'none: no work is here' : 'not said' },
        ...work.map(({ id, position, title, order }) => ({
          value: id,
          words: `order ${order.number}, ${position} ${title}`,
        })),
      ]}
      value={value}
      onChange={(event) => onChoose(event.currentTarget.value)}
    />
  );
}

/** Which work, and what becomes of the part; of a life-limited one that has to be said. */
export function useHandling(work: readonly WorkHere[], lifeLimited: boolean) {
  const [itemId, setItemId] = useState('');
  const [disposition, setDisposition] = useState<PartDisposition | ''>('');
  const [words, setWords] = useState('');
  return {
    complete: !lifeLimited || disposition !== '',
    given: {
      ...(itemId === '' ? {} : { itemId }),
      ...(disposition === '' ? {} : { disposition, dispositionWords: words }),
    },
    fields: (
      <>
        <WorkSelect work={work} value={itemId} onChoose={setItemId} />
        <Select
          label="What becomes of it"
          hint={
            lifeLimited
              ? 'Life-limited: needed, so that it is not fitted past its life (14 CFR 43.10(c))'
              : 'Needed of life-limited parts (14 CFR 43.10(c))'
          }
          options={[
            { value: '', words: 'not said' },
            ...Object.entries(dispositionWords).map(([value, said]) => ({ value, words: said })),
          ]}
          value={disposition}
          onChange={(event) => setDisposition(event.currentTarget.value as PartDisposition | '')}
        />
        <Field
          label="Where it is kept, or how it was made useless"
          maxLength={300}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
      </>
    ),
  };
}

/** Says it afterwards of a part's newest stay: the newest word holds. */
export function HandleForm({
  stay,
  work,
}: {
  stay: PartOfSheet['stays'][number];
  work: readonly WorkHere[];
}) {
  const off = stay.removedAt != null;
  const [itemId, setItemId] = useState('');
  const handling = useHandling(work, false);
  const handle = useDoing(
    async (input: HandleComponentInput) =>
      (await request(HandleComponentDocument, { input })).handleComponent,
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    handle.mutate({
      ...{ fittingId: stay.id, side: off ? 'off' : 'on' },
      ...(off ? handling.given : { itemId }),
    });
  };
  const said = off ? Object.keys(handling.given).length > 0 : itemId !== '';
  return (
    <form className={styles.form} onSubmit={submit} aria-label="In the course of which work">
      <p className={styles.quiet}>
        {off ? `It came off ${stay.aircraft}` : `It was fitted to ${stay.aircraft}`},{' '}
        {stay.position}. An entry that was signed stays as it was.
      </p>
      <div className={styles.pair}>
        {off ? handling.fields : <WorkSelect work={work} value={itemId} onChoose={setItemId} />}
      </div>
      {handle.error === null ? null : <ErrorNote head="Not said">{handle.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button type="submit" disabled={!said} busy={handle.isPending ? 'Recording' : undefined}>
          Say it
        </Button>
      </div>
    </form>
  );
}
