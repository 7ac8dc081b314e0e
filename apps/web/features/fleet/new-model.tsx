'use client';

import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { aircraftSize, Silhouette } from '../../components/Silhouette.tsx';
import type { AircraftKind } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './fleet.module.css';
import { AddModelDocument } from './fleet-documents.ts';

const kinds: { value: AircraftKind; words: string }[] = [
  { value: 'helicopter_two_seat', words: 'two-seat helicopter' },
  { value: 'helicopter_four_seat', words: 'four-seat helicopter' },
  { value: 'airplane_single', words: 'single-engine airplane' },
  { value: 'airplane_twin', words: 'twin-engine airplane' },
];
const sizes = ['length', 'span', 'height', 'parkedLength', 'parkedWidth'] as const;
type Size = (typeof sizes)[number];

/** Metres as typed, in millimetres; 0 where they cannot be read, which the shop refuses with its sentence. */
const millimetres = (typed: string): number => {
  const metres = Number(typed.trim());
  return typed.trim() === '' || !Number.isFinite(metres) ? 0 : Math.round(metres * 1000);
};

/** A type of aircraft with its sizes, drawn to scale as they are typed. */
export function NewModel({ onDone }: { onDone: (id: string) => void }) {
  const made = useRef('');
  const [given, setGiven] = useState({
    ...{ maker: '', name: '', kind: 'airplane_single' },
    ...{ length: '', span: '', height: '', parkedLength: '', parkedWidth: '' },
  });
  const field = (name: keyof typeof given) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  const helicopter = given.kind.startsWith('helicopter');
  const mm = Object.fromEntries(sizes.map((size) => [size, millimetres(given[size])])) as Record<
    Size,
    number
  >;
  const adding = useDoing(
    async () => {
      const { answer } = await request(AddModelDocument, {
        input: {
          maker: given.maker,
          name: given.name,
          kind: given.kind as AircraftKind,
          lengthMm: mm.length,
          spanMm: mm.span,
          heightMm: mm.height,
          parkedLengthMm: mm.parkedLength,
          parkedWidthMm: mm.parkedWidth,
        },
      });
      if (answer.__typename === 'AircraftModel') made.current = answer.id;
      return answer;
    },
    () => onDone(made.current),
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    adding.mutate(undefined);
  };
  const drawable = mm.length >= 1000 && mm.span >= 1000 && mm.height >= 500;
  return (
    <form className={styles.form} onSubmit={submit} noValidate aria-label="The model">
      <div className={styles.fields}>
        <Field label="Maker" maxLength={80} {...field('maker')} />
        <Field label="Model" maxLength={80} {...field('name')} />
        <Select label="Kind" options={kinds} {...field('kind')} />
        <Field
          label="Length of the airframe"
          unit="m"
          inputMode="decimal"
          figures
          {...field('length')}
        />
        <Field
          label={helicopter ? 'Diameter of the main rotor' : 'Span'}
          unit="m"
          inputMode="decimal"
          figures
          {...field('span')}
        />
        <Field label="Height" unit="m" inputMode="decimal" figures {...field('height')} />
        <Field
          label="Parked: length"
          hint={helicopter ? 'Blades fore and aft.' : undefined}
          unit="m"
          inputMode="decimal"
          figures
          {...field('parkedLength')}
        />
        <Field
          label="Parked: width"
          unit="m"
          inputMode="decimal"
          figures
          {...field('parkedWidth')}
        />
      </div>
      {drawable ? (
        <Silhouette
          kind={given.kind as AircraftKind}
          size={aircraftSize({
            lengthMm: mm.length,
            spanMm: mm.span,
            heightMm: mm.height,
            parkedLengthMm: mm.parkedLength || mm.length,
            parkedWidthMm: mm.parkedWidth || mm.span,
          })}
          label="Side view, to the sizes that were typed"
          hairline
        />
      ) : null}
      {adding.error ? <ErrorNote head="Not added">{adding.error.message}</ErrorNote> : null}
      <div className={styles.buttons}>
        <Button type="submit" busy={adding.isPending ? 'Adding' : undefined}>
          Add the model
        </Button>
      </div>
    </form>
  );
}
