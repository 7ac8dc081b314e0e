'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../../components/Button.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Field, LongField } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { useTyped } from '../../people/use-typed.ts';
import { useChange } from '../use-change.ts';
import styles from './places.module.css';
import { byCondition, type Places, SaveTableDocument, type Step } from './places-document.ts';

type Kind = 'factor' | 'giveOrTake';
const nameOf = ({ condition, step }: Step, kind: Kind) => `${condition} ${step} ${kind}`;
/** Three decimals, without the zeros at their end. */
const written = (value: number) => String(Number(value.toFixed(3)));
const numberIn = (text: string) =>
  text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.').replace(/^×\s*/, ''));

/** What the shop believes that places cost, step by step in factors; saved as a revision with its reason. */
export function TableForm({ table }: { table: Places['table'] }) {
  const kept = Object.fromEntries(
    table.steps.flatMap((step) => [
      [nameOf(step, 'factor'), written(step.factor)],
      [nameOf(step, 'giveOrTake'), written(step.giveOrTake)],
    ]),
  );
  const { typed, type, forget, meanwhile } = useTyped<Record<string, string>>(kept);
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  /** What was left alone goes back as it came, to the last digit. */
  const valueOf = (step: Step, kind: Kind) => {
    const text = typed[nameOf(step, kind)] ?? '';
    return text === kept[nameOf(step, kind)] ? step[kind] : numberIn(text);
  };
  const saving = useChange(
    ['hours', 'places'],
    async () => {
      const steps = table.steps.map((step) => ({
        condition: step.condition,
        step: step.step,
        factor: valueOf(step, 'factor'),
        giveOrTake: valueOf(step, 'giveOrTake'),
      }));
      const input = { readRevision: table.revision, steps, reason };
      return (await request(SaveTableDocument, { input })).result;
    },
    () => {
      forget();
      setReason('');
      setAsked(false);
    },
  );
  const isNumber = (step: Step) =>
    Number.isFinite(valueOf(step, 'factor')) && Number.isFinite(valueOf(step, 'giveOrTake'));
  const unsaid =
    asked && reason.trim().length < 3 ? 'Say why: it stays with the revision.' : undefined;
  function submit(event: FormEvent) {
    event.preventDefault();
    setAsked(true);
    if (reason.trim().length >= 3 && table.steps.every(isNumber)) saving.go(undefined);
  }
  const field = (step: Step, kind: Kind, label: string) => {
    const name = nameOf(step, kind);
    const value = typed[name] ?? '';
    return (
      <Field
        label={label}
        figures
        inputMode="decimal"
        value={value}
        hint={meanwhile(name)}
        wrong={
          Number.isFinite(numberIn(value))
            ? undefined
            : `"${value}" is no factor: write a number such as 1.26.`
        }
        onChange={(event) => type({ [name]: event.currentTarget.value })}
      />
    );
  };
  return (
    <form
      className={styles.form}
      onSubmit={submit}
      noValidate
      aria-label="What is believed of places"
    >
      <p className={styles.intro}>
        A factor comes on top of the step before; ×1 costs nothing. Give or take says how sure that
        is: nine in ten lie between the factor divided by it and the factor times it.
      </p>
      <div className={styles.conditions}>
        {byCondition(table.steps).map(({ words, of }) => (
          <div key={words} className={styles.steps}>
            <h3>{words}</h3>
            {of.map((step) => (
              <fieldset key={step.step}>
                <legend>{step.words}</legend>
                <div className={styles.pair}>
                  {field(step, 'factor', 'Factor, ×')}
                  {field(step, 'giveOrTake', 'Give or take, ×')}
                </div>
                <p className={styles.so}>
                  {soText(valueOf(step, 'factor'), valueOf(step, 'giveOrTake'))}
                </p>
              </fieldset>
            ))}
          </div>
        ))}
      </div>
      <LongField
        label="Why"
        hint="It stays with the revision, with your name and the time."
        required
        rows={2}
        maxLength={2000}
        value={reason}
        wrong={unsaid ?? (saving.field === 'reason' ? saving.sentence : undefined)}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      {saving.sentence === undefined || saving.field === 'reason' ? null : (
        <ErrorNote head="Not saved">{saving.sentence}</ErrorNote>
      )}
      <div>
        <Button kind="primary" type="submit" busy={saving.busy ? 'Saving' : undefined}>
          Save as revision {table.revision + 1}
        </Button>
      </div>
    </form>
  );
}

/** "Nine in ten between ×0.87 and ×1.38." */
function soText(factor: number, giveOrTake: number): string {
  if (!(factor > 0 && giveOrTake > 0 && Number.isFinite(factor * giveOrTake)))
    return 'Needed are two factors.';
  return `Nine in ten between ×${(factor / giveOrTake).toFixed(2)} and ×${(factor * giveOrTake).toFixed(2)}`;
}
