'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { TorqueUnit } from '../../graphql/generated/graphql.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { GeneralTorque } from './general-torque.tsx';
import type { TorqueChoices } from './item-documents.ts';
import styles from './safety.module.css';
import { unitOptions } from './safety-words.ts';
import { type Asked, decimalOf, TorqueSetting } from './torque-setting.tsx';
import { useFact } from './use-fact.ts';
import { torqueChoicesAsked } from './use-open.ts';

const sources = [
  { value: 'maker', words: 'The maker’s', note: 'From the current manual' },
  { value: 'general', words: 'The general table', note: 'Only where the maker gives none' },
] as const;
const empty = {
  fastener: '',
  torque: '',
  unit: 'in_lb' as TorqueUnit,
  drag: '',
  lever: '',
  extension: '',
  source: 'maker' as 'maker' | 'general',
  thread: '',
  nut: 'tension' as 'tension' | 'shear',
  toolId: '',
  reason: '',
};
type Typed = typeof empty;

/** A fastener that was torqued: to what, by which data, with which wrench; the arithmetic is done for the hands. */
export function RecordTorque({ itemId }: { itemId: string }) {
  const choices = useQuery(torqueChoicesAsked);
  if (choices.error)
    return <ErrorNote head="No wrenches to show">{choices.error.message}</ErrorNote>;
  if (choices.data === undefined) return <Loading>Looking up the wrenches</Loading>;
  return <Form itemId={itemId} choices={choices.data} />;
}

function Form({ itemId, choices }: { itemId: string; choices: TorqueChoices }) {
  const [typed, setTyped] = useState<Typed>(empty);
  const [asked, setAsked] = useState(false);
  const set = (over: Partial<Typed>) => setTyped((before) => ({ ...before, ...over }));
  const recording = useFact('torque', () => {
    // The next fastener is mostly like this one.
    set({ fastener: '', reason: '' });
    setAsked(false);
  });
  const { torqueCautions, generalTorques } = choices;
  const tools = choices.tools.filter(({ kind }) => kind === 'torque_wrench');
  const tool = tools.find(({ id }) => id === typed.toolId);
  const reckoned: Asked | null = askedOf(typed);
  const wrong = asked ? wrongIn(typed, tool) : {};
  const record = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (Object.keys(wrongIn(typed, tool)).length > 0 || !tool || reckoned === null) return;
    const { fastener, source, thread, nut, reason } = typed;
    recording.mutate({
      input: {
        ...reckoned,
        itemId,
        fastener,
        source,
        ...(source === 'general' && { thread, nut }),
        toolId: tool.id,
        ...(tool.lapsed && { reason }),
      },
      words: `Torque: ${fastener}`,
    });
  };
  const field = (key: keyof Typed) => ({
    value: typed[key],
    wrong: wrong[key],
    onChange: (event: { currentTarget: { value: string } }) =>
      set({ [key]: event.currentTarget.value }),
  });
  const figure = { figures: true, inputMode: 'decimal', maxLength: 9 } as const;
  if (tools.length === 0)
    return (
      <p className={styles.second}>
        No wrench is on the shop’s list: the manager adds it on the sheet of the shop.
      </p>
    );
  return (
    <form className={styles.form} onSubmit={record} noValidate aria-label="Record a torque">
      <Field
        label="Which fastener"
        hint="All 4 nuts of the left exhaust stack."
        maxLength={200}
        {...field('fastener')}
      />
      <Choices
        legend="Its torque is"
        name="torqueSource"
        options={sources}
        value={typed.source}
        onChoose={(source) => set({ source: source as Typed['source'] })}
      />
      {typed.source === 'general' ? (
        <GeneralTorque rows={generalTorques} thread={typed.thread} nut={typed.nut} onChange={set} />
      ) : null}
      <div className={styles.two}>
        <Field label="Torque, friction drag not counted" {...figure} {...field('torque')} />
        <Select label="Unit" options={unitOptions} {...field('unit')} />
        <Field label="Friction drag, added" {...figure} {...field('drag')} />
      </div>
      <details>
        <summary className={styles.summary}>With an adapter on the wrench</summary>
        <div className={styles.two}>
          <Field
            label="Wrench, handle to drive"
            hint="Both lengths in one unit."
            {...figure}
            {...field('lever')}
          />
          <Field
            label="The adapter lengthens it by"
            hint="Minus where it points back; 0 where it is square to the wrench."
            {...figure}
            {...field('extension')}
          />
        </div>
      </details>
      {reckoned === null ? null : <TorqueSetting asked={reckoned} />}
      <Select
        label="With which wrench"
        options={[{ value: '', words: 'choose' }, ...tools.map(wrenchOption)]}
        {...field('toolId')}
      />
      {tool?.lapsed ? (
        <>
          <p className={styles.flag}>
            The calibration of {tool.name} {tool.number} has lapsed. Take one that is good; if this
            one was used, say why. It is flagged to whoever looks at the item.
          </p>
          <Field label="Why this one was used" maxLength={500} {...field('reason')} />
        </>
      ) : null}
      <ul className={styles.second}>
        {torqueCautions.map((each) => (
          <li key={each}>{each}</li>
        ))}
      </ul>
      {recording.error === null ? null : (
        <ErrorNote head="Not recorded">{recording.error.message}</ErrorNote>
      )}
      <Button type="submit" size="bench" busy={recording.isPending ? 'Recording' : undefined}>
        Record the torque
      </Button>
    </form>
  );
}

const wrenchOption = ({ id, name, number, goodUntil, lapsed }: TorqueChoices['tools'][number]) => ({
  value: id,
  words: `${number} ${name}, ${goodUntil === null ? 'never calibrated' : `${lapsed ? 'LAPSED after' : 'good until'} ${calendarDateText(goodUntil)}`}`,
});

/** What the arithmetic is asked; null while there is no torque, or half an adapter. */
function askedOf({ torque, unit, drag, lever, extension }: Typed): Asked | null {
  const wanted = decimalOf(torque);
  const added = drag.trim() === '' ? null : decimalOf(drag);
  const [long, more] = [decimalOf(lever), decimalOf(extension, { minus: true })];
  const half = (lever.trim() === '') !== (extension.trim() === '');
  const bad = lever.trim() !== '' && (long === null || more === null);
  if (wanted === null || (drag.trim() !== '' && added === null) || half || bad) return null;
  return { torque: wanted, unit, drag: added, lever: long, extension: more };
}

type Wrong = Partial<Record<keyof Typed, string>>;

function wrongIn(typed: Typed, tool: TorqueChoices['tools'][number] | undefined): Wrong {
  const { fastener, torque, drag, lever, extension, source, thread, reason } = typed;
  const wrong: Wrong = {};
  if (fastener.trim().length < 2) wrong.fastener = 'Say which fastener.';
  if (decimalOf(torque) === null) wrong.torque = 'Needed is a number, such as 135.';
  if (drag.trim() !== '' && decimalOf(drag) === null) wrong.drag = 'Needed is a number, or none.';
  if (extension.trim() !== '' && decimalOf(lever) === null)
    wrong.lever = 'Needed with an adapter: the length of the wrench.';
  if (lever.trim() !== '' && decimalOf(extension, { minus: true }) === null)
    wrong.extension = 'Needed with the length of the wrench: what the adapter adds to it.';
  if (source === 'general' && thread === '') wrong.thread = 'Choose the thread.';
  if (!tool) wrong.toolId = 'Choose the wrench.';
  if (tool?.lapsed && reason.trim().length < 3) wrong.reason = 'Say why it was used.';
  return wrong;
}
