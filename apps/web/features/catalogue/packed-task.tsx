'use client';

import { Fragment, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import styles from './catalogue.module.css';
import type { TaskInPackage } from './catalogue-documents.ts';
import { TaskForm } from './task-form.tsx';

/** A task in its place, with the ways to move it, to describe it anew and to take it off. */
export function PackedTask({
  task,
  place,
  of,
  onMove,
  onTakeOff,
  onChanged,
}: {
  task: TaskInPackage;
  place: number;
  of: number;
  onMove: (by: 1 | -1) => void;
  onTakeOff: () => void;
  onChanged: (task: TaskInPackage) => void;
}) {
  const [open, setOpen] = useState(false);
  const named = <span className="spoken"> {task.title}</span>;
  return (
    <li className={styles.task}>
      <span className={styles.place} aria-hidden="true">
        {place}
      </span>
      <span>
        {task.title}{' '}
        <span className={styles.rule}>
          {inShort(task).map((words, index) => (
            <Fragment key={words}>
              {index === 0 ? null : ' · '}
              <span>{words}</span>
            </Fragment>
          ))}
        </span>
      </span>
      <span className={styles.steps}>
        <Button kind="plain" disabled={place === 1} onClick={() => onMove(-1)}>
          up{named}
        </Button>
        <Button kind="plain" disabled={place === of} onClick={() => onMove(1)}>
          down{named}
        </Button>
        <Button kind="plain" aria-expanded={open} onClick={() => setOpen(!open)}>
          describe{named}
        </Button>
        <Button kind="plain" onClick={onTakeOff}>
          take off{named}
        </Button>
      </span>
      {open ? (
        <div className={styles.describe}>
          <TaskForm
            task={task}
            onDone={(changed) => {
              onChanged(changed);
              setOpen(false);
            }}
            onLeave={() => setOpen(false)}
          />
        </div>
      ) : null}
    </li>
  );
}

const inShort = ({ jasc, standardHours, checklist, paragraphs }: TaskInPackage): string[] => [
  jasc,
  standardHours === null ? 'no hours' : `${standardHours} h`,
  ...(checklist.length > 0
    ? [`${checklist.length} ${checklist.length === 1 ? 'line' : 'lines'}`]
    : []),
  ...paragraphs,
];
