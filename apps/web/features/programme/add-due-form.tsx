'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices, Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { AddDueItemInput, DueKind, DueRule } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { AddTask } from '../quoting/add-lines.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import type { WantedTask } from '../quoting/use-wanted.ts';
import { CountFields, countsTyped, emptyCounts } from './count-fields.tsx';
import styles from './programme.module.css';
import { AddDueItemDocument, type AircraftOnRecord } from './programme-documents.ts';
import { kindWords, ruleWords } from './programme-words.ts';
import { countOf, hundredthsOf } from './typed-hours.ts';

const empty = {
  ...{ title: '', number: '', revision: '', source: '', componentId: '' },
  ...{ hours: '', months: '', days: '', limit: '', date: '' },
};

/** Something that falls due, with the terms that its rule asks for. */
export function AddDueForm({
  aircraft: { id: aircraftId, components },
}: {
  aircraft: Pick<AircraftOnRecord, 'id' | 'components'>;
}) {
  const [kind, setKind] = useState<DueKind>('inspection');
  const [rule, setRule] = useState<DueRule>('annual');
  const [typed, setTyped] = useState(empty);
  const [counts, setCounts] = useState(emptyCounts);
  const [last, setLast] = useState(false);
  const [task, setTask] = useState<WantedTask | null>(null);
  const add = useDoing(
    async (input: AddDueItemInput) => (await request(AddDueItemDocument, { input })).addDueItem,
    () => {
      setTyped(empty);
      setCounts(emptyCounts);
      setLast(false);
      setTask(null);
    },
  );
  const { title, number, revision, source, componentId, hours, months, days, limit, date } = typed;
  const counted = countsTyped(counts);
  const text = (key: keyof typeof empty) => ({
    value: typed[key],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setTyped((before) => ({ ...before, [key]: value }));
    },
  });
  const every = rule === 'recurring';
  const calendar = rule === 'calendar_months';
  const limited = rule === 'life_limit' || rule === 'once';
  const submit = (event: FormEvent) => {
    event.preventDefault();
    add.mutate({
      ...{ aircraftId, kind, rule, title, source },
      ...(number === '' ? {} : { number }),
      ...(revision === '' ? {} : { revision }),
      ...(componentId === '' ? {} : { componentId }),
      ...(task === null ? {} : { taskId: task.id }),
      ...(every && hours !== '' ? { everyHundredths: hundredthsOf(hours) } : {}),
      ...(every && months !== '' ? { everyMonths: countOf(months) } : {}),
      ...(every && days !== '' ? { everyDays: countOf(days) } : {}),
      ...(every && counted ? { everyCounts: counted } : {}),
      ...(limited && counted ? { limitCounts: counted } : {}),
      ...((every || limited) && last ? { whicheverLast: true } : {}),
      ...(calendar && months !== '' ? { everyCalendarMonths: countOf(months) } : {}),
      ...(limited && limit !== '' ? { limitHundredths: hundredthsOf(limit) } : {}),
      ...(limited && date !== '' ? { limitDate: date } : {}),
    });
  };
  const options = <Value extends string>(words: Record<Value, string>) =>
    Object.entries<string>(words).map(([value, said]) => ({ value, words: said }));
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Something that falls due">
      <div className={styles.pair}>
        <Choices
          legend="What it is"
          name="due-kind"
          value={kind}
          options={options(kindWords)}
          onChoose={(value) => setKind(value as DueKind)}
        />
        <Choices
          legend="By which rule"
          name="due-rule"
          value={rule}
          options={options(ruleWords)}
          onChoose={(value) => setRule(value as DueRule)}
        />
      </div>
      <div className={styles.pair}>
        <Field label="Name" required maxLength={200} {...text('title')} />
        <Field
          label="Number"
          hint="Of a directive or bulletin"
          maxLength={100}
          {...text('number')}
        />
        <Field label="Revision" maxLength={100} {...text('revision')} />
        <Field
          label="Where its terms stand"
          hint="A paragraph, or a page of a manual with its revision"
          required
          maxLength={300}
          {...text('source')}
        />
        <Select
          label="Of which part"
          options={[
            { value: '', words: 'of the whole aircraft' },
            ...components.map(({ id, title: part, serial }) => ({
              value: id,
              words: `${part}, serial ${serial}`,
            })),
          ]}
          {...text('componentId')}
        />
        {task === null ? (
          <AddTask
            label="The shop’s task for it, so that it can be quoted"
            taken={new Set()}
            onAdd={setTask}
          />
        ) : (
          <div>
            <p>Quoted as: {task.title}</p>
            <Button kind="plain" onClick={() => setTask(null)}>
              Another task, or none
            </Button>
          </div>
        )}
        {every ? (
          <Field label="Every so many hours" inputMode="decimal" {...text('hours')} />
        ) : null}
        {every || calendar ? (
          <Field
            label={calendar ? 'Every so many calendar months' : 'Every so many months'}
            inputMode="numeric"
            {...text('months')}
          />
        ) : null}
        {every ? (
          <>
            <Field label="Every so many days" inputMode="numeric" {...text('days')} />
            <CountFields
              typed={counts}
              onTyped={setCounts}
              label={(counter) => `Every so many ${counter}`}
            />
          </>
        ) : null}
        {limited ? (
          <>
            <Field label="Limit in hours" inputMode="decimal" {...text('limit')} />
            <CountFields
              typed={counts}
              onTyped={setCounts}
              label={(counter) => `Limit in ${counter}`}
            />
            <Field label="Not later than" type="date" {...text('date')} />
          </>
        ) : null}
      </div>
      {every || limited ? (
        <Tick
          name="due-whichever-last"
          words="Of several, the one that comes last counts"
          note="Left out: whichever comes first."
          ticked={last}
          onTick={setLast}
        />
      ) : null}
      {add.error === null ? null : <ErrorNote head="Not added">{add.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button type="submit" busy={add.isPending ? 'Adding' : undefined}>
          Add it
        </Button>
      </div>
    </form>
  );
}
