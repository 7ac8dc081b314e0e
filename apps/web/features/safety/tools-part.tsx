'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { ToolKind } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './safety.module.css';
import {
  AddToolDocument,
  CalibrateToolDocument,
  RetireToolDocument,
  type ShopTool,
  ShopToolsDocument,
} from './shop-documents.ts';

/** Torque wrenches and test gear, each with the day until which it is good. The manager keeps them. */
export function ToolsPart() {
  const asked = useQuery({ queryKey: ['shopTools'], queryFn: () => request(ShopToolsDocument) });
  const tools = asked.data?.tools ?? [];
  return (
    <section className={styles.part} aria-labelledby="tools">
      <h2 id="tools">Tools that carry a calibration date</h2>
      {asked.error ? <ErrorNote head="No tools to show">{asked.error.message}</ErrorNote> : null}
      {tools.length === 0 ? (
        <p className={styles.second}>
          No torque wrench is on the list: without one no torque can be recorded.
        </p>
      ) : (
        <ul className={styles.lines}>
          {tools.map((tool) => (
            <Tool key={tool.id} tool={tool} />
          ))}
        </ul>
      )}
      <AddTool />
    </section>
  );
}

function Tool({ tool }: { tool: ShopTool }) {
  const { id, name, number, goodUntil, lapsed, calibrations } = tool;
  const retiring = useDoing(
    async (toolId: string) => (await request(RetireToolDocument, { input: { toolId } })).answer,
  );
  const newest = calibrations[0];
  return (
    <li className={styles.line}>
      <div>
        <p className={styles.what}>
          {name} <span className={styles.figures}>{number}</span>
        </p>
        <p className={lapsed ? styles.flag : undefined}>
          {goodUntil === null
            ? 'never calibrated'
            : `${lapsed ? 'lapsed after' : 'good until'} ${calendarDateText(goodUntil)}`}
        </p>
        {newest === undefined ? null : (
          <p className={styles.second}>
            {newest.words === '' ? '' : `${newest.words}; `}written down by {newest.by.name}
          </p>
        )}
        {retiring.error === null ? null : (
          <ErrorNote head="Not retired">{retiring.error.message}</ErrorNote>
        )}
      </div>
      <details>
        <summary className={styles.summary}>
          <span>
            It was calibrated<span className="spoken">: {`${name} ${number}`}</span>
          </span>
        </summary>
        <Calibrate toolId={id} />
      </details>
      <details>
        <summary className={styles.summary}>
          <span>
            It is no longer used<span className="spoken">: {`${name} ${number}`}</span>
          </span>
        </summary>
        <p className={styles.second}>
          What was done with it keeps its name. It does not come back.
        </p>
        <Button
          busy={retiring.isPending ? 'Recording' : undefined}
          aria-label={`Retire ${name} ${number}`}
          onClick={() => retiring.mutate(id)}
        >
          Retire it
        </Button>
      </details>
    </li>
  );
}

function Calibrate({ toolId }: { toolId: string }) {
  const [dueOn, setDueOn] = useState('');
  const [words, setWords] = useState('');
  const [wrong, setWrong] = useState<string>();
  const saving = useDoing(
    async () => (await request(CalibrateToolDocument, { input: { toolId, dueOn, words } })).answer,
    () => {
      setDueOn('');
      setWords('');
    },
  );
  const save = (event: FormEvent) => {
    event.preventDefault();
    setWrong(dueOn === '' ? 'Needed is the last day on which it is good.' : undefined);
    if (dueOn !== '') saving.mutate(undefined);
  };
  return (
    <form className={styles.form} onSubmit={save} noValidate>
      <div className={styles.two}>
        <Field
          label="Good until"
          type="date"
          wrong={wrong}
          value={dueOn}
          onChange={(event) => setDueOn(event.currentTarget.value)}
        />
        <Field
          label="By whom, under which number"
          maxLength={200}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
      </div>
      {saving.error === null ? null : (
        <ErrorNote head="Not written down">{saving.error.message}</ErrorNote>
      )}
      <div className={styles.pair}>
        <Button type="submit" busy={saving.isPending ? 'Saving' : undefined}>
          Write it down
        </Button>
      </div>
    </form>
  );
}

const blank = {
  kind: 'torque_wrench' as ToolKind,
  name: '',
  number: '',
  dueOn: '',
  words: '',
};
const kinds = [
  { value: 'torque_wrench', words: 'Torque wrench' },
  { value: 'test_gear', words: 'Test gear' },
] as const satisfies readonly { value: ToolKind; words: string }[];

function AddTool() {
  const [typed, setTyped] = useState(blank);
  const [asked, setAsked] = useState(false);
  const adding = useDoing(
    async () => (await request(AddToolDocument, { input: typed })).answer,
    () => {
      setTyped(blank);
      setAsked(false);
    },
  );
  const missing = (key: keyof typeof typed, words: string) =>
    asked && typed[key].trim() === '' ? words : undefined;
  const add = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (typed.name.trim() && typed.number.trim() && typed.dueOn) adding.mutate(undefined);
  };
  const field = (key: keyof typeof typed) => ({
    value: typed[key],
    onChange: (event: { currentTarget: HTMLInputElement }) =>
      setTyped({ ...typed, [key]: event.currentTarget.value }),
  });
  return (
    <details>
      <summary className={styles.summary}>Add a tool</summary>
      <form className={styles.form} onSubmit={add} noValidate aria-label="Add a tool">
        <div className={styles.two}>
          <Select
            label="Kind"
            options={kinds}
            value={typed.kind}
            onChange={(event) =>
              setTyped({ ...typed, kind: event.currentTarget.value as ToolKind })
            }
          />
          <Field
            label="What it is"
            maxLength={120}
            wrong={missing('name', 'Say what it is.')}
            {...field('name')}
          />
          <Field
            label="Number, as engraved"
            maxLength={60}
            wrong={missing('number', 'Give its number.')}
            {...field('number')}
          />
          <Field
            label="Good until"
            type="date"
            wrong={missing('dueOn', 'Needed is the last day on which it is good.')}
            {...field('dueOn')}
          />
          <Field label="Calibrated by, under which number" maxLength={200} {...field('words')} />
        </div>
        {adding.error === null ? null : (
          <ErrorNote head="Not added">{adding.error.message}</ErrorNote>
        )}
        <div className={styles.pair}>
          <Button type="submit" busy={adding.isPending ? 'Adding' : undefined}>
            Add it
          </Button>
        </div>
      </form>
    </details>
  );
}
