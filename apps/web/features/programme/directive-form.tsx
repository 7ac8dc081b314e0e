'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import type { AddDirectiveInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { AddTask } from '../quoting/add-lines.tsx';
import { useDoing } from '../quoting/use-answer.ts';
import type { WantedTask } from '../quoting/use-wanted.ts';
import {
  AddDirectiveDocument,
  type DirectiveEntered,
  type ModelKnown,
} from './directive-documents.ts';
import { DirectiveTerms, emptyTerms, givenTerms } from './directive-terms.tsx';
import styles from './programme.module.css';

const emptyWords = {
  ...{ authority: '', number: '', revision: '', revisedOn: '', effectiveOn: '' },
  ...{ subject: '', method: '', supersedesId: '' },
};
const emptyReach = { modelId: '', partNumber: '', serials: '' };
const kinds = [
  { value: 'directive', words: 'directive of the authority' },
  { value: 'bulletin', words: 'bulletin of a maker' },
  { value: 'limit', words: 'limit of a maker' },
];

/** A directive as it was published, and what it applies to. */
export function DirectiveForm({
  directives,
  models,
}: {
  directives: readonly DirectiveEntered[];
  models: readonly ModelKnown[];
}) {
  const [kind, setKind] = useState('directive');
  const [words, setWords] = useState(emptyWords);
  const [terms, setTerms] = useState(emptyTerms);
  const [reaches, setReaches] = useState([emptyReach]);
  const [task, setTask] = useState<WantedTask | null>(null);
  const add = useDoing(
    async (input: AddDirectiveInput) =>
      (await request(AddDirectiveDocument, { input })).addDirective,
    () => {
      setWords(emptyWords);
      setTerms(emptyTerms);
      setReaches([emptyReach]);
      setTask(null);
    },
  );
  const text = (key: keyof typeof emptyWords) => ({
    value: words[key],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setWords((before) => ({ ...before, [key]: value }));
    },
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const { supersedesId, ...said } = words;
    add.mutate({
      ...said,
      kind: kind as AddDirectiveInput['kind'],
      ...givenTerms(terms),
      ...(supersedesId === '' ? {} : { supersedesId }),
      ...(task === null ? {} : { taskId: task.id }),
      reaches: reaches.map(({ modelId, ...reach }) => ({
        ...reach,
        ...(modelId === '' ? {} : { modelId }),
      })),
    });
  };
  const inForce = directives.filter((each) => each.supersededBy == null && each.kind === kind);
  return (
    <form className={styles.form} onSubmit={submit} aria-label="A directive or a bulletin">
      <Choices legend="What it is" name="kind" value={kind} options={kinds} onChoose={setKind} />
      <div className={styles.pair}>
        <Field label="Who issued it" required maxLength={120} {...text('authority')} />
        <Field label="Number" required maxLength={100} {...text('number')} />
        <Field label="Revision" maxLength={100} {...text('revision')} />
        <Field label="Date of this revision" type="date" required {...text('revisedOn')} />
        <Field label="Takes effect on" type="date" required {...text('effectiveOn')} />
        <Select
          label="Takes the place of"
          options={[
            { value: '', words: 'none' },
            ...inForce.map(({ id, number, subject }) => ({
              value: id,
              words: `${number}, ${subject}`,
            })),
          ]}
          {...text('supersedesId')}
        />
      </div>
      <Field label="What it is about" required maxLength={200} {...text('subject')} />
      <LongField
        label="What it asks to be done"
        hint="With its paragraph, in your own words"
        required
        maxLength={2000}
        {...text('method')}
      />
      <DirectiveTerms terms={terms} onTerms={setTerms} lives={kind === 'limit'} />
      <fieldset className={styles.form}>
        <legend>What it applies to</legend>
        {reaches.map((reach, index) => (
          <ReachFields
            // Lines have no name of their own, and are only added at the end.
            key={index}
            reach={reach}
            models={models}
            onReach={(next) =>
              setReaches(reaches.map((each, place) => (place === index ? next : each)))
            }
          />
        ))}
        <div className={styles.row}>
          <Button kind="plain" onClick={() => setReaches([...reaches, emptyReach])}>
            Another line
          </Button>
        </div>
      </fieldset>
      {task === null ? (
        <AddTask
          label="The shop’s task for it, so that it can be quoted"
          taken={new Set()}
          onAdd={setTask}
        />
      ) : (
        <p>
          Quoted as: {task.title}{' '}
          <Button kind="plain" onClick={() => setTask(null)}>
            Another task, or none
          </Button>
        </p>
      )}
      {add.error === null ? null : <ErrorNote head="Not entered">{add.error.message}</ErrorNote>}
      <div className={styles.row}>
        <Button type="submit" busy={add.isPending ? 'Entering' : undefined}>
          Enter it
        </Button>
      </div>
    </form>
  );
}

function ReachFields({
  reach,
  models,
  onReach,
}: {
  reach: typeof emptyReach;
  models: readonly ModelKnown[];
  onReach: (reach: typeof emptyReach) => void;
}) {
  return (
    <div className={styles.reach}>
      <Select
        label="Model"
        options={[
          { value: '', words: 'any model' },
          ...models.map(({ id, maker, name }) => ({ value: id, words: `${maker} ${name}` })),
        ]}
        value={reach.modelId}
        onChange={(event) => onReach({ ...reach, modelId: event.currentTarget.value })}
      />
      <Field
        label="Part number"
        hint="Of an engine or another part; left empty, the aircraft"
        maxLength={100}
        value={reach.partNumber}
        onChange={(event) => onReach({ ...reach, partNumber: event.currentTarget.value })}
      />
      <Field
        label="Serial numbers"
        hint="1000 to 1100, 1204, 1300 and up; left empty, all"
        maxLength={4000}
        value={reach.serials}
        onChange={(event) => onReach({ ...reach, serials: event.currentTarget.value })}
      />
    </div>
  );
}
