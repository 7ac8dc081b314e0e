'use client';

import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { AccessConditionsInput, SayOutcomeInput } from '../../graphql/generated/graphql.ts';
import { nothingChosen, outcomeInput, outcomeWrong } from '../diagnosis/outcome-chosen.ts';
import { OutcomeField } from '../diagnosis/outcome-field.tsx';
import { AfterPhotos, type Afters, toTakeAgain } from './AfterPhotos.tsx';
import styles from './bench.module.css';
import { postureOptions, reachOptions, sightOptions } from './form-words.ts';
import type { ItemOnSheet } from './item-documents.ts';
import type { ItemChange } from './pending.ts';
import { SpokenField } from './SpokenField.tsx';

export type FinishInput = Extract<ItemChange, { does: 'finish' }>['input'];
type Planned = Omit<AccessConditionsInput, 'id'> | null;

/** The place as it was found: begins as it was planned, so that only what differs is typed. */
function startOf(planned: Planned) {
  return {
    clearanceMm: planned?.clearanceMm?.toString() ?? '',
    sight: planned?.sight ?? '',
    posture: planned?.posture ?? '',
    reach: planned?.reach ?? '',
    swingDeg: planned?.swingDeg?.toString() ?? '',
    held: planned?.held ?? false,
    lockedFasteners: planned?.lockedFasteners?.toString() ?? '',
  };
}
type Found = ReturnType<typeof startOf>;

const wholeNumber = (text: string) => (/^\d{1,6}$/.test(text.trim()) ? Number(text) : null);

function asInput(found: Found): AccessConditionsInput {
  return {
    clearanceMm: wholeNumber(found.clearanceMm),
    sight: (found.sight || null) as AccessConditionsInput['sight'] & string,
    posture: (found.posture || null) as AccessConditionsInput['posture'] & string,
    reach: (found.reach || null) as AccessConditionsInput['reach'] & string,
    swingDeg: wholeNumber(found.swingDeg),
    held: found.held,
    lockedFasteners: wholeNumber(found.lockedFasteners),
  };
}

/** What was done, as it will stand in the record entry, and how the place turned out to be. */
export function FinishForm({
  item,
  runsHere,
  refused,
  unfinished,
  onFinish,
}: {
  item: ItemOnSheet;
  /** Whether this person's clock runs on it: finishing stops it first. */
  runsHere: boolean;
  /** What was written here before and not taken: it is there to go on from. */
  refused: FinishInput | undefined;
  /** Why it cannot be finished yet, as far as is known here; null: nothing is left. */
  unfinished: string | null;
  /** With what the finding that it corrects turned out to be, where somebody said so, and what it looks like now. */
  onFinish: (input: FinishInput, outcome: SayOutcomeInput | null, afters: Afters) => void;
}) {
  const [workDone, setWorkDone] = useState(refused?.workDone ?? '');
  const [found, setFound] = useState(() => startOf(refused?.foundAccess ?? item.plannedAccess));
  const [touched, setTouched] = useState(refused?.foundAccess != null);
  const [wrong, setWrong] = useState<string>();
  const [tried, setTried] = useState(false);
  const [outcome, setOutcome] = useState(nothingChosen);
  const [afters, setAfters] = useState<Afters>({});
  const [outcomeMissing, setOutcomeMissing] = useState<string>();
  const words = useRef<HTMLTextAreaElement>(null);
  const { id = '', symptom = null } = item.finding ?? {};
  const corrects = symptom === null ? null : { id, symptom };
  const change = (part: Partial<Found>) => {
    setTouched(true);
    setFound((before) => ({ ...before, ...part }));
  };
  const finish = (event: FormEvent) => {
    event.preventDefault();
    const missing = workDone.trim().length < 3;
    setWrong(missing ? 'Say what was done: it becomes the record entry.' : undefined);
    if (missing) {
      words.current?.focus();
      return;
    }
    const unsaid = outcomeWrong(outcome) ?? undefined;
    setOutcomeMissing(unsaid);
    setTried(true);
    if (unsaid !== undefined || unfinished !== null) return;
    onFinish(
      { itemId: item.id, workDone, ...(touched && { foundAccess: asInput(found) }) },
      corrects === null ? null : outcomeInput(corrects.id, corrects.symptom, outcome),
      afters,
    );
  };
  const number = (
    label: string,
    unit: string,
    key: 'clearanceMm' | 'swingDeg' | 'lockedFasteners',
  ) => (
    <Field
      label={label}
      unit={unit}
      figures
      inputMode="numeric"
      pattern="[0-9]{0,6}"
      value={found[key]}
      onChange={(event) => change({ [key]: event.currentTarget.value })}
    />
  );
  return (
    <form className={styles.form} onSubmit={finish} noValidate>
      <SpokenField
        label="Work done"
        ref={words}
        hint="As it will stand in the record entry: what, by which data, with which result."
        rows={5}
        maxLength={4000}
        wrong={wrong}
        value={workDone}
        onWords={setWorkDone}
      />
      {corrects === null ? null : (
        <OutcomeField
          findingId={corrects.id}
          chosen={outcome}
          onChosen={setOutcome}
          wrong={outcomeMissing}
        />
      )}
      {item.finding === null ? null : (
        <AfterPhotos befores={toTakeAgain(item.finding)} afters={afters} onAfters={setAfters} />
      )}
      <details>
        <summary className={styles.summary}>The place was not as planned</summary>
        <div className={styles.form}>
          <div className={styles.two}>
            {number('Room for hand and tool', 'mm', 'clearanceMm')}
            {number('Free swing of the tool', '°', 'swingDeg')}
            {number('Locked fasteners', 'pieces', 'lockedFasteners')}
            <Select
              label="Seen"
              options={sightOptions}
              value={found.sight}
              onChange={(event) => change({ sight: event.currentTarget.value as Found['sight'] })}
            />
            <Select
              label="Posture"
              options={postureOptions}
              value={found.posture}
              onChange={(event) =>
                change({ posture: event.currentTarget.value as Found['posture'] })
              }
            />
            <Select
              label="Reach"
              options={reachOptions}
              value={found.reach}
              onChange={(event) => change({ reach: event.currentTarget.value as Found['reach'] })}
            />
          </div>
          <Tick
            name="held"
            words="Held while fastening"
            note="Against a spring, a cam or its own weight"
            ticked={found.held}
            onTick={(held) => change({ held })}
          />
        </div>
      </details>
      {tried && unfinished !== null ? (
        <ErrorNote head="Not done yet">{unfinished}</ErrorNote>
      ) : null}
      <Button type="submit" kind="primary" size="bench">
        {runsHere ? 'Stop the clock: it is done' : 'It is done'}
      </Button>
    </form>
  );
}
