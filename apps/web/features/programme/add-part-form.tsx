'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { AddComponentInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import { AddComponentDocument } from './part-documents.ts';
import styles from './programme.module.css';
import { hundredthsOf } from './typed-hours.ts';

const empty = {
  ...{ kind: 'engine', title: '', partNumber: '', serial: '' },
  ...{ since: '', overhaul: '', life: '' },
};
const kinds = ['engine', 'propeller', 'rotor', 'gearbox', 'accessory'];

/** A part joins the list with the times that its papers give. */
export function AddPartForm() {
  const [typed, setTyped] = useState(empty);
  const [counts, setCounts] = useState(emptyCounts);
  const add = useDoing(
    async (input: AddComponentInput) =>
      (await request(AddComponentDocument, { input })).addComponent,
    () => {
      setTyped(empty);
      setCounts(emptyCounts);
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
    const { kind, title, partNumber, serial, since, overhaul, life } = typed;
    const counted = countsTyped(counts);
    add.mutate({
      ...(counted ? { counts: counted } : {}),
      ...{ kind: kind as AddComponentInput['kind'], title, partNumber, serial },
      tisHundredths: hundredthsOf(since),
      ...(overhaul.trim() === '' ? {} : { sinceOverhaulHundredths: hundredthsOf(overhaul) }),
      ...(life.trim() === '' ? {} : { lifeLimitHundredths: hundredthsOf(life) }),
    });
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="A part with a time of its own">
      <div className={styles.pair}>
        <Select
          label="Kind"
          options={kinds.map((kind) => ({ value: kind, words: kind }))}
          {...text('kind')}
        />
        <Field label="What it is" required maxLength={120} {...text('title')} />
        <Field label="Part number" required maxLength={100} {...text('partNumber')} />
        <Field label="Serial number" required maxLength={100} {...text('serial')} />
        <Field label="Hours since new" required inputMode="decimal" {...text('since')} />
        <Field
          label="Hours since overhaul"
          hint="Left empty: none is known"
          inputMode="decimal"
          {...text('overhaul')}
        />
        <Field
          label="Life in hours"
          hint="Of the maker’s limitations; left empty: none"
          inputMode="decimal"
          {...text('life')}
        />
        <CountFields
          typed={counts}
          onTyped={setCounts}
          label={(counter) =>
            `${counter[0]?.toUpperCase()}${counter.slice(1)} since new, where its papers say`
          }
        />
      </div>
      {add.error === null ? null : <ErrorNote head="Not entered">{add.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button type="submit" busy={add.isPending ? 'Entering' : undefined}>
          Enter the part
        </Button>
      </div>
    </form>
  );
}
