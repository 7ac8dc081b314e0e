'use client';

import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './catalogue.module.css';
import { SaveTaskDocument, type TaskInPackage } from './catalogue-documents.ts';

const linesOf = (text: string) =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter(Boolean);

/** Describes a piece of work: counts for what is quoted and opened from now on. */
export function TaskForm({
  task,
  onDone,
  onLeave,
}: {
  /** Null: one that the shop does not know yet. */
  task: TaskInPackage | null;
  onDone: (task: TaskInPackage) => void;
  onLeave: () => void;
}) {
  const [given, setGiven] = useState({
    title: task?.title ?? '',
    jasc: task?.jasc ?? '',
    standardHours: task?.standardHours ?? '',
    critical: task?.critical ?? false,
    cautions: task?.cautions.join('\n') ?? '',
    reference: task?.reference ?? '',
    paragraphs: task?.paragraphs.join('\n') ?? '',
  });
  const made = useRef<TaskInPackage | null>(null);
  const saving = useDoing(
    async () => {
      const { answer } = await request(SaveTaskDocument, {
        input: {
          ...(task && { taskId: task.id, version: task.version }),
          title: given.title,
          jasc: given.jasc,
          standardHours: given.standardHours.trim() === '' ? null : given.standardHours.trim(),
          critical: given.critical,
          cautions: linesOf(given.cautions),
          reference: given.reference,
          paragraphs: linesOf(given.paragraphs),
        },
      });
      if (answer.__typename === 'Task') made.current = answer;
      return answer;
    },
    () => {
      if (made.current) onDone(made.current);
    },
  );
  const field = (
    name: 'title' | 'jasc' | 'standardHours' | 'cautions' | 'reference' | 'paragraphs',
  ) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  function save(event: FormEvent) {
    event.preventDefault();
    saving.mutate(undefined);
  }
  return (
    <form
      className={styles.form}
      onSubmit={save}
      noValidate
      aria-label={task === null ? 'A task that the shop does not know yet' : task.title}
    >
      <div className={styles.pair}>
        <Field label="What is done" maxLength={200} {...field('title')} />
        <Field
          label="JASC code"
          hint="Four digits, such as 7310."
          inputMode="numeric"
          maxLength={4}
          figures
          {...field('jasc')}
        />
        <Field
          label="Standard time"
          hint="Empty: none is known."
          inputMode="decimal"
          figures
          unit="h"
          {...field('standardHours')}
        />
        <Field label="The data that it is done by" maxLength={300} {...field('reference')} />
      </div>
      <div className={styles.pair}>
        <LongField label="Cautions, one a line" rows={3} {...field('cautions')} />
        <LongField
          label="Lines of the inspection rule that it answers, one a line"
          hint="As they are listed: appendix D(d)(3)"
          rows={3}
          {...field('paragraphs')}
        />
      </div>
      <Tick
        name="critical"
        words="Wants a second, independent pair of eyes"
        ticked={given.critical}
        onTick={(critical) => setGiven((before) => ({ ...before, critical }))}
      />
      {saving.error ? <ErrorNote head="Not kept">{saving.error.message}</ErrorNote> : null}
      <div className={styles.buttons}>
        <Button type="submit" busy={saving.isPending ? 'Keeping it' : undefined}>
          Keep the task
        </Button>
        <Button kind="plain" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
