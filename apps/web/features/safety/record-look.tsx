'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { LeakFluid, LeakSeen } from '../../graphql/generated/graphql.ts';
import { NotSent } from './not-sent.tsx';
import type { LeakStanding, OpenOrder } from './order-documents.ts';
import styles from './safety.module.css';
import { fluidOptions, leakKindWords } from './safety-words.ts';
import { decimalOf } from './torque-setting.tsx';
import { useFact } from './use-fact.ts';

const sights = [
  { value: 'dry', words: 'Dry', note: 'Nothing leaks' },
  { value: 'stain', words: 'A stain', note: 'With its size' },
  { value: 'running_leak', words: 'A running leak', note: 'Drips or runs: not before flight' },
] as const satisfies readonly { value: LeakSeen; words: string; note: string }[];

/** What was seen at a look for leaks, by who looked. What leaks names its finding. */
export function RecordLook({ kind, order }: { kind: LeakStanding['kind']; order: OpenOrder }) {
  const [seen, setSeen] = useState<LeakSeen | ''>('');
  const [fluid, setFluid] = useState<LeakFluid>('fuel');
  const [size, setSize] = useState('');
  const [words, setWords] = useState('');
  const [findingId, setFindingId] = useState('');
  const [wrong, setWrong] = useState<string>();
  const recording = useFact('look', () => setSeen(''));
  const record = (event: FormEvent) => {
    event.preventDefault();
    const stainInches = decimalOf(size);
    const missing =
      seen === ''
        ? 'Say what was seen.'
        : seen === 'stain' && stainInches === null
          ? 'Say how far across the stain is, in inches, such as 1.25.'
          : undefined;
    setWrong(missing);
    if (missing !== undefined || seen === '') return;
    recording.mutate({
      input: {
        ...{ orderId: order.id, kind, seen, words },
        ...(seen !== 'dry' && { fluid, ...(findingId !== '' && { findingId }) }),
        ...(seen === 'stain' && { stainInches }),
      },
      words: `Look for leaks: ${leakKindWords[kind].toLowerCase()}`,
    });
  };
  return (
    <form className={styles.form} onSubmit={record} noValidate>
      <NotSent kinds={['look']} about={order.id} />
      <Choices
        legend="What was seen"
        name={`seen-${kind}`}
        options={sights}
        value={seen}
        onChoose={(value) => setSeen(value as LeakSeen)}
      />
      {seen === '' || seen === 'dry' ? null : (
        <>
          <div className={styles.two}>
            <Select
              label="What leaked"
              options={fluidOptions}
              value={fluid}
              onChange={(event) => setFluid(event.currentTarget.value as LeakFluid)}
            />
            {seen === 'stain' ? (
              <Field
                label="Across, after half an hour"
                unit="in"
                figures
                inputMode="decimal"
                maxLength={6}
                value={size}
                onChange={(event) => setSize(event.currentTarget.value)}
              />
            ) : null}
          </div>
          <Select
            label="The finding that says so"
            hint="None yet: note it first with “Found something”."
            options={[
              { value: '', words: 'none' },
              ...order.findings.map(({ id, number, title }) => ({
                value: id,
                words: `${number}, ${title}`,
              })),
            ]}
            value={findingId}
            onChange={(event) => setFindingId(event.currentTarget.value)}
          />
        </>
      )}
      <Field
        label="Where, and more of it"
        maxLength={500}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      {wrong === undefined ? null : <ErrorNote>{wrong}</ErrorNote>}
      {recording.error === null ? null : (
        <ErrorNote head="Not recorded">{recording.error.message}</ErrorNote>
      )}
      <Button type="submit" busy={recording.isPending ? 'Recording' : undefined}>
        Record it
      </Button>
    </form>
  );
}
