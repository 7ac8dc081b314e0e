'use client';

import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './catalogue.module.css';
import { SetPackageHoursDocument, type TaskInPackage } from './catalogue-documents.ts';

/** How long each task should take, all of a package on one sheet: typed down the list and kept at once. */
export function HoursOfTasks({
  packageId,
  tasks,
  onDone,
  onLeave,
}: {
  packageId: string;
  tasks: readonly TaskInPackage[];
  onDone: (tasks: readonly TaskInPackage[]) => void;
  onLeave: () => void;
}) {
  const [given, setGiven] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(tasks.map(({ id, standardHours }) => [id, standardHours ?? ''])),
  );
  const kept = useRef<readonly TaskInPackage[]>([]);
  const hoursOf = ({ id }: TaskInPackage) => (given[id] ?? '').trim().replace(',', '.');
  const changed = tasks.filter((task) => hoursOf(task) !== (task.standardHours ?? ''));
  const wrongOf = (task: TaskInPackage) => {
    const hours = hoursOf(task);
    return hours === '' || (/^\d{1,3}(\.\d{1,3})?$/.test(hours) && Number(hours) > 0)
      ? undefined
      : 'needed: hours above 0, such as 1.2';
  };
  const saving = useDoing(
    async () => {
      const { answer } = await request(SetPackageHoursDocument, {
        input: {
          packageId,
          hours: changed.map((task) => ({
            taskId: task.id,
            version: task.version,
            standardHours: hoursOf(task) || null,
          })),
        },
      });
      if (answer.__typename === 'Package') kept.current = answer.tasks.map(({ task }) => task);
      return answer;
    },
    () => onDone(kept.current),
  );
  function save(event: FormEvent) {
    event.preventDefault();
    if (tasks.every((task) => wrongOf(task) === undefined)) saving.mutate(undefined);
  }
  return (
    <form className={styles.form} onSubmit={save} noValidate aria-label="Hours of all tasks">
      <p className={styles.second}>
        Labour-hours of one person, by your own experience or the maker’s book. Empty: none is
        known. Clocked work soon counts for more than what is said here.
      </p>
      <ol className={styles.hours}>
        {tasks.map((task) => (
          <li key={task.id}>
            <Field
              label={task.title}
              inputMode="decimal"
              figures
              unit="h"
              wrong={wrongOf(task)}
              value={given[task.id] ?? ''}
              onChange={({ currentTarget: { value } }) =>
                setGiven((before) => ({ ...before, [task.id]: value }))
              }
            />
          </li>
        ))}
      </ol>
      {saving.error ? <ErrorNote head="Not kept">{saving.error.message}</ErrorNote> : null}
      <div className={styles.buttons}>
        <Button
          type="submit"
          disabled={changed.length === 0}
          busy={saving.isPending ? 'Keeping them' : undefined}
        >
          Keep {changed.length === 1 ? '1 changed time' : `${changed.length} changed times`}
        </Button>
        <Button kind="plain" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
