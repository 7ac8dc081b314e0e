'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../../components/Button.tsx';
import { Choices } from '../../../components/Choice.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { useChange } from '../use-change.ts';
import styles from './odd.module.css';
import { DecideTimeDocument, type Tasks, type Verdict, type Watched } from './odd-document.ts';

const hoursIn = (text: string) =>
  text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.'));

/** What a person says of a time: whether and as what it is learned from. The clock itself stays. */
export function DecideForm({ time, tasks }: { time: Watched; tasks: Tasks }) {
  const other = time.proposal?.reasons.find(({ otherTask }) => otherTask !== null)?.otherTask ?? '';
  const [verdict, setVerdict] = useState<Verdict | ''>('');
  const [hours, setHours] = useState('');
  const [task, setTask] = useState(other);
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const deciding = useChange(['hours', 'odd'], async (given: Verdict) => {
    const input = {
      timeId: time.id,
      verdict: given,
      hours: given === 'taken_as' ? hoursIn(hours) : null,
      task: given === 'other_task' ? task : null,
      reason,
      readDecisions: time.decisions.length,
    };
    return (await request(DecideTimeDocument, { input })).result;
  });
  const wrongHours = Number.isFinite(hoursIn(hours))
    ? undefined
    : `"${hours}" are no hours: write a number such as 2.5.`;
  const unsaid =
    asked && reason.trim().length < 3 ? 'Say why: it stays with the decision.' : undefined;
  const ready =
    verdict !== '' &&
    reason.trim().length >= 3 &&
    (verdict !== 'taken_as' || wrongHours === undefined) &&
    (verdict !== 'other_task' || task !== '');
  function submit(event: FormEvent) {
    event.preventDefault();
    setAsked(true);
    if (ready) deciding.go(verdict);
  }
  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <Choices
        legend="What is right?"
        name={`verdict-${time.id}`}
        value={verdict}
        onChoose={(value) => setVerdict(value as Verdict)}
        options={[
          {
            value: 'stands',
            words: 'It stands',
            note: 'Right as clocked. Far from the rest, it still counts less.',
          },
          {
            value: 'taken_as',
            words: 'Learn from other hours',
            note: 'The clock was wrong, and you know better.',
          },
          { value: 'other_task', words: 'It was another task', note: 'Learn from it as that.' },
          { value: 'left_out', words: 'Leave it out', note: 'Nothing is learned from it.' },
        ]}
      />
      {asked && verdict === '' ? <p role="alert">Choose what is right.</p> : null}
      {verdict === 'taken_as' ? (
        <Field
          label="Hands-on hours, all people added"
          figures
          unit="h"
          inputMode="decimal"
          value={hours}
          wrong={asked ? wrongHours : undefined}
          onChange={(event) => setHours(event.currentTarget.value)}
        />
      ) : null}
      {verdict === 'other_task' ? (
        <Select
          label="Which task"
          value={task}
          onChange={(event) => setTask(event.currentTarget.value)}
          wrong={asked && task === '' ? 'Choose the task that it was.' : undefined}
          options={[
            { value: '', words: 'Choose' },
            ...tasks
              .filter((each) => each.task !== time.task)
              .map((each) => ({ value: each.task, words: each.title ?? each.task })),
          ]}
        />
      ) : null}
      <LongField
        label="Why"
        rows={2}
        maxLength={2000}
        value={reason}
        wrong={unsaid}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {deciding.sentence === undefined ? null : (
        <ErrorNote head="Not decided">{deciding.sentence}</ErrorNote>
      )}
      <div>
        <Button type="submit" busy={deciding.busy ? 'Deciding' : undefined}>
          Decide
        </Button>
      </div>
    </form>
  );
}
