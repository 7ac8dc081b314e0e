'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { LongField, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { OpeningForm } from './opening-form.tsx';
import styles from './safety.module.css';
import {
  SetChecklistDocument,
  TaskChecklistsDocument,
  type TaskWithList,
} from './shop-documents.ts';

/** The lists of the shop's tasks, line by line. An item takes its task's list over when it is opened. */
export function ChecklistsPart() {
  const [taskId, setTaskId] = useState('');
  const asked = useQuery({
    queryKey: ['taskChecklists'],
    queryFn: () => request(TaskChecklistsDocument),
  });
  const tasks = asked.data?.tasks.edges.map(({ node }) => node) ?? [];
  const task = tasks.find(({ id }) => id === taskId);
  const withLists = tasks.filter(({ checklist }) => checklist.length > 0).length;
  return (
    <section className={styles.part} aria-labelledby="checklists">
      <h2 id="checklists">Checklists of tasks</h2>
      <p className={styles.second}>
        {withLists} of {tasks.length} tasks have one. Each line is initialled on the bench before
        the item is finished; items that are open keep the lines they were opened with.
      </p>
      {asked.error ? <ErrorNote head="No tasks to show">{asked.error.message}</ErrorNote> : null}
      <Select
        label="Task"
        options={[
          { value: '', words: 'choose' },
          ...tasks.map(({ id, title, jasc, checklist }) => ({
            value: id,
            words: `${jasc} ${title}${checklist.length > 0 ? ` (${checklist.length})` : ''}`,
          })),
        ]}
        value={taskId}
        onChange={(event) => setTaskId(event.currentTarget.value)}
      />
      {task === undefined ? null : (
        <>
          <OpeningForm key={`opening ${task.id}`} task={task} tasks={tasks} />
          <Lines key={task.id} task={task} />
        </>
      )}
    </section>
  );
}

function Lines({ task }: { task: TaskWithList }) {
  // As they were when somebody began to write: another's change meanwhile is said, not overwritten.
  const [seen, setSeen] = useState(task.checklist);
  const [text, setText] = useState(task.checklist.join('\n'));
  const lines = text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
  const saving = useDoing(
    async () =>
      (await request(SetChecklistDocument, { input: { taskId: task.id, lines, seen } })).answer,
    () => setSeen(lines),
  );
  const save = (event: FormEvent) => {
    event.preventDefault();
    saving.mutate(undefined);
  };
  return (
    <form className={styles.form} onSubmit={save} noValidate aria-label={`List of ${task.title}`}>
      <LongField
        label="One line each, in order"
        rows={8}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      {saving.error === null ? null : (
        <ErrorNote head="Not saved">{saving.error.message}</ErrorNote>
      )}
      <div className={styles.pair}>
        <Button type="submit" busy={saving.isPending ? 'Saving' : undefined}>
          Save {lines.length} {lines.length === 1 ? 'line' : 'lines'}
        </Button>
      </div>
    </form>
  );
}
