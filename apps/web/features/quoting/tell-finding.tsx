'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import type { TellFindingInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { AddTask } from './add-lines.tsx';
import { minorFrom } from './amount-field.ts';
import type { DeskPackage } from './catalogue-document.ts';
import { TellFindingDocument } from './quote-mutations.ts';
import styles from './tell-finding.module.css';
import { useDoing } from './use-answer.ts';
import type { WantedTask } from './use-wanted.ts';

const nothing = { seen: '', of: '', parts: '', note: '' };

/** For the manager: what turned up in this package in the years before the shop kept its work here. */
export function TellFinding({
  chosen,
  model,
  currency,
}: {
  chosen: DeskPackage;
  model: { id: string; name: string };
  currency: string;
}) {
  const [task, setTask] = useState<WantedTask | null>(null);
  const [typed, setTyped] = useState(nothing);
  const tell = useDoing(
    async (input: TellFindingInput) => (await request(TellFindingDocument, { input })).tellFinding,
    () => {
      setTask(null);
      setTyped(nothing);
    },
  );
  const set = (field: keyof typeof nothing) => (event: { currentTarget: { value: string } }) => {
    const { value } = event.currentTarget;
    setTyped((now) => ({ ...now, [field]: value }));
  };
  const parts = typed.parts.trim() === '' ? null : minorFrom(typed.parts, currency);
  const wrongParts = typed.parts.trim() !== '' && parts === null;
  const whole = (text: string) => (/^\d{1,6}$/.test(text.trim()) ? Number(text) : null);
  const [seen, of] = [whole(typed.seen), whole(typed.of)];
  return (
    <details className={styles.part}>
      <summary>Tell what was found in it in the years before</summary>
      <div className={styles.form}>
        <p className={styles.words}>
          Counted on the {model.name} in “{chosen.title}”. It moves what is foretold, never what is
          offered; told again for the same work, the later figures hold.
        </p>
        {task === null ? (
          <AddTask taken={new Set(chosen.tasks.map(({ task: { id } }) => id))} onAdd={setTask} />
        ) : (
          <p>
            <b>{task.title}</b>{' '}
            <Button kind="plain" onClick={() => setTask(null)}>
              Other work
            </Button>
          </p>
        )}
        <div className={styles.fields}>
          <Field
            label="Found, times"
            inputMode="numeric"
            value={typed.seen}
            onChange={set('seen')}
          />
          <Field
            label="In so many packages"
            inputMode="numeric"
            value={typed.of}
            onChange={set('of')}
          />
          <Field
            label={`Its parts, ${currency}, net`}
            inputMode="decimal"
            value={typed.parts}
            onChange={set('parts')}
            wrong={
              wrongParts
                ? `“${typed.parts}” is no amount: needed is one such as 148.00.`
                : undefined
            }
          />
          <Field label="Known from" maxLength={1000} value={typed.note} onChange={set('note')} />
        </div>
        {tell.error === null ? null : <ErrorNote head="Not told">{tell.error.message}</ErrorNote>}
        <div>
          <Button
            disabled={task === null || seen === null || of === null || wrongParts}
            busy={tell.isPending ? 'Recording' : undefined}
            onClick={() =>
              tell.mutate({
                packageId: chosen.id,
                taskId: task?.id ?? '',
                modelId: model.id,
                seen: seen ?? 0,
                of: of ?? 0,
                parts: parts === null ? null : `${parts}`,
                note: typed.note,
              })
            }
          >
            Keep it
          </Button>
        </div>
      </div>
    </details>
  );
}
