'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './people.module.css';
import {
  AddWorkKindDocument,
  type PriceLists,
  SetTaskKindDocument,
  TaskKindsDocument,
} from './price-documents.ts';
import type { ShopSheet } from './shop-documents.ts';
import { useSetting } from './use-setting.ts';

/** The kinds of work that the shop tells from each other, and which task is of which. */
export function KindsOfWork({
  kinds,
  sheet,
}: {
  kinds: PriceLists['workKinds'];
  sheet: ShopSheet;
}) {
  const rated = new Set(
    sheet.labourRates.flatMap(({ rate }) => (rate.validFrom <= sheet.today ? [rate.kind] : [])),
  );
  return (
    <div className={styles.part}>
      <h3>Kinds of work</h3>
      {kinds.length === 0 ? (
        <p className={styles.second}>None yet: all work is sold at the rate of a mechanic.</p>
      ) : (
        <ul className={styles.ruledList}>
          {kinds.map(({ id, name, tasks }) => (
            <li key={id}>
              {name}, {tasks} {tasks === 1 ? 'task' : 'tasks'}:{' '}
              {rated.has(name)
                ? 'at a rate of its own'
                : 'no rate of its own yet, so at the rate of a mechanic'}
            </li>
          ))}
        </ul>
      )}
      <div className={styles.two}>
        <AddKind />
        {kinds.length === 0 ? null : <TaskKind kinds={kinds} />}
      </div>
    </div>
  );
}

function AddKind() {
  const [name, setName] = useState('');
  const adding = useSetting(
    async () => (await request(AddWorkKindDocument, { input: { name: name.trim() } })).addWorkKind,
    () => setName(''),
  );
  function submit(event: FormEvent) {
    event.preventDefault();
    adding.go(undefined);
  }
  return (
    <form className={styles.rate} onSubmit={submit} aria-label="Name a kind of work">
      <Field
        label="Another kind of work"
        hint="Such as engine, avionics, structure, inspection. Its rate is added above, under its name."
        required
        maxLength={40}
        value={name}
        wrong={adding.about('name')}
        onChange={(event) => setName(event.currentTarget.value)}
      />
      {adding.sentence === undefined || adding.about('name') ? null : (
        <ErrorNote head="Not named">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={adding.busy ? 'Naming' : undefined}>
          Name it
        </Button>
      </div>
    </form>
  );
}

function TaskKind({ kinds }: { kinds: PriceLists['workKinds'] }) {
  const [taskId, setTaskId] = useState('');
  const asked = useQuery({
    queryKey: ['shopSheet', 'taskKinds'],
    queryFn: () => request(TaskKindsDocument),
  });
  const tasks = asked.data?.tasks.edges.map(({ node }) => node) ?? [];
  const task = tasks.find(({ id }) => id === taskId);
  const saying = useDoing(
    async (workKindId: string) =>
      (
        await request(SetTaskKindDocument, {
          input: { taskId, workKindId: workKindId === '' ? null : workKindId },
        })
      ).setTaskKind,
  );
  return (
    <div className={styles.rate}>
      {asked.error ? <ErrorNote head="No tasks to show">{asked.error.message}</ErrorNote> : null}
      <Select
        label="Which task"
        options={[
          { value: '', words: 'choose' },
          ...tasks.map(({ id, title, jasc, workKind }) => ({
            value: id,
            words: `${jasc} ${title}${workKind === null ? '' : ` (${workKind.name})`}`,
          })),
        ]}
        value={taskId}
        onChange={(event) => setTaskId(event.currentTarget.value)}
      />
      {task === undefined ? null : (
        <Select
          label="Is of which kind, for quotes from now on"
          options={[
            { value: '', words: 'none: at the rate of a mechanic' },
            ...kinds.map(({ id, name }) => ({ value: id, words: name })),
          ]}
          value={task.workKind?.id ?? ''}
          disabled={saying.isPending}
          onChange={(event) => saying.mutate(event.currentTarget.value)}
        />
      )}
      {saying.error === null ? null : <ErrorNote head="Not said">{saying.error.message}</ErrorNote>}
    </div>
  );
}
