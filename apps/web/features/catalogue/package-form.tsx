'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { InspectionKind } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { AddTask } from '../quoting/add-lines.tsx';
import { amountText, minorFrom } from '../quoting/amount-field.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './catalogue.module.css';
import {
  type ModelChoice,
  type PackageOnSheet,
  SavePackageDocument,
  type TaskInPackage,
  TaskInPackageDocument,
} from './catalogue-documents.ts';
import { inspectionWords, moved, soldFor, soldForOptions } from './catalogue-words.ts';
import { HoursOfTasks } from './hours-of-tasks.tsx';
import { MissingLines } from './missing-lines.tsx';
import { PackedTask } from './packed-task.tsx';
import { TaskForm } from './task-form.tsx';

/** What a package is, whole: kept as its next revision. */
export function PackageForm({
  pack,
  models,
  currency,
}: {
  /** Null: a new one. */
  pack: PackageOnSheet | null;
  models: readonly ModelChoice[];
  currency: string;
}) {
  const router = useRouter();
  const made = useRef('');
  const [given, setGiven] = useState(() => startOf(pack, currency));
  const [tasks, setTasks] = useState<readonly TaskInPackage[]>(
    () => pack?.tasks.map(({ task }) => task) ?? [],
  );
  const [describing, setDescribing] = useState(false);
  const [timing, setTiming] = useState(false);
  const set = (over: Partial<typeof given>) => setGiven((before) => ({ ...before, ...over }));
  const price = given.price.trim() === '' ? null : minorFrom(given.price, currency);
  const priceWrong = given.price.trim() !== '' && (price === null || price === 0n);
  const saving = useDoing(
    async () => {
      const { answer } = await request(SavePackageDocument, {
        input: {
          ...(pack && { packageId: pack.id, fromRevision: pack.revision }),
          title: given.title,
          inspection: given.inspection === '' ? null : (given.inspection as InspectionKind),
          ...soldFor(given.soldFor),
          price: price === null ? null : `${price}`,
          madeFrom: given.madeFrom,
          madeFromOn: given.madeFromOn === '' ? null : given.madeFromOn,
          offered: given.offered,
          taskIds: tasks.map(({ id }) => id),
        },
      });
      if (answer.__typename === 'Package') made.current = answer.id;
      return answer;
    },
    () => {
      if (pack === null) router.push(`/shop/packages/${encodeURIComponent(made.current)}`);
    },
  );
  const add = (task: TaskInPackage) =>
    setTasks((before) => [...before.filter(({ id }) => id !== task.id), task]);
  async function addKnown(id: string) {
    const { node } = await request(TaskInPackageDocument, { id });
    if (node?.__typename === 'Task') add(node);
  }
  function save(event: FormEvent) {
    event.preventDefault();
    if (!priceWrong) saving.mutate(undefined);
  }
  const hours = tasks.reduce((sum, { standardHours }) => sum + Number(standardHours ?? 0), 0);
  const without = tasks.filter(({ standardHours }) => standardHours === null).length;

  return (
    <>
      <section className={styles.part} aria-labelledby="packed">
        <h2 id="packed">What is done, in order</h2>
        <p className={styles.second}>
          {tasks.length} tasks, {hours.toFixed(1)} standard hours
          {without === 0
            ? '.'
            : `; ${without} ${without === 1 ? 'has' : 'have'} none: such a task can be quoted once the shop has clocked it, or has said how long it should take.`}
        </p>
        {pack === null ? null : timing ? (
          <HoursOfTasks
            packageId={pack.id}
            tasks={tasks.filter(({ id }) => pack.tasks.some(({ task }) => task.id === id))}
            onDone={(kept) => {
              setTasks(tasks.map((task) => kept.find(({ id }) => id === task.id) ?? task));
              setTiming(false);
            }}
            onLeave={() => setTiming(false)}
          />
        ) : (
          <p>
            <Button kind="plain" onClick={() => setTiming(true)}>
              Hours of all tasks, on one sheet
            </Button>
          </p>
        )}
        <ol className={styles.tasks}>
          {tasks.map((task, index) => (
            <PackedTask
              key={task.id}
              task={task}
              place={index + 1}
              of={tasks.length}
              onMove={(by) => setTasks(moved(tasks, index, by))}
              onTakeOff={() => setTasks(tasks.filter(({ id }) => id !== task.id))}
              onChanged={(changed) =>
                setTasks(tasks.map((each) => (each.id === changed.id ? changed : each)))
              }
            />
          ))}
        </ol>
        <AddTask taken={new Set(tasks.map(({ id }) => id))} onAdd={({ id }) => void addKnown(id)} />
        {describing ? (
          <TaskForm
            task={null}
            onDone={(task) => {
              add(task);
              setDescribing(false);
            }}
            onLeave={() => setDescribing(false)}
          />
        ) : (
          <p>
            <Button kind="plain" onClick={() => setDescribing(true)}>
              Describe a task that the shop does not know yet
            </Button>
          </p>
        )}
        {pack === null ? null : (
          <MissingLines
            lines={pack.missing.filter(
              ({ paragraph }) => !tasks.some(({ paragraphs }) => paragraphs.includes(paragraph)),
            )}
            onAdd={add}
          />
        )}
      </section>
      <form className={styles.form} onSubmit={save} noValidate aria-label="What the package is">
        <h2>What it is</h2>
        <div className={styles.pair}>
          <Field
            label="Title"
            maxLength={200}
            value={given.title}
            onChange={(event) => set({ title: event.currentTarget.value })}
          />
          <Select
            label="Inspection"
            options={[
              { value: '', words: 'none in the sense of 14 CFR 91.409' },
              ...Object.entries(inspectionWords).map(([value, words]) => ({ value, words })),
            ]}
            value={given.inspection}
            onChange={(event) => set({ inspection: event.currentTarget.value })}
          />
          <Select
            label="For"
            options={[{ value: '', words: 'any aircraft' }, ...soldForOptions(models)]}
            value={given.soldFor}
            onChange={(event) => set({ soldFor: event.currentTarget.value })}
          />
          <Field
            label="Fixed price of its labour"
            hint="Net. Empty: by time and materials."
            figures
            unit={currency}
            inputMode="decimal"
            wrong={priceWrong ? 'needed: an amount above 0, or nothing' : undefined}
            value={given.price}
            onChange={(event) => set({ price: event.currentTarget.value })}
          />
          <Field
            label="Made from"
            hint="The maker’s manual and its revision, or the rule."
            maxLength={300}
            value={given.madeFrom}
            onChange={(event) => set({ madeFrom: event.currentTarget.value })}
          />
          <Field
            label="Of which date these data are"
            type="date"
            hint="A year on it is said that they are old."
            value={given.madeFromOn}
            onChange={(event) => set({ madeFromOn: event.currentTarget.value })}
          />
        </div>
        <Tick
          name="offered"
          words="Offered"
          note="Unticked, no new quote is made of it; what was sold stays."
          ticked={given.offered}
          onTick={(offered) => set({ offered })}
        />
        {saving.error ? <ErrorNote head="Not kept">{saving.error.message}</ErrorNote> : null}
        <div className={styles.buttons}>
          <Button
            kind="primary"
            type="submit"
            busy={saving.isPending ? 'Keeping it' : undefined}
            disabled={tasks.length === 0}
          >
            Keep as revision {(pack?.revision ?? 0) + 1}
          </Button>
        </div>
      </form>
    </>
  );
}

const startOf = (pack: PackageOnSheet | null, currency: string) => ({
  title: pack?.title ?? '',
  inspection: pack?.inspection ?? '',
  soldFor: pack?.model ? `model ${pack.model.id}` : pack?.modelKind ? `kind ${pack.modelKind}` : '',
  price: pack?.price == null ? '' : amountText(BigInt(pack.price), currency),
  madeFrom: pack?.madeFrom ?? '',
  madeFromOn: pack?.madeFromOn ?? '',
  offered: pack?.offered ?? true,
});
