'use client';

import { Choices } from '../../components/Choice.tsx';
import { Select } from '../../components/Field.tsx';
import type { TorqueChoices } from './item-documents.ts';
import styles from './safety.module.css';

const nuts = [
  { value: 'tension', words: 'Tension nut', note: 'MS20365, AN310' },
  { value: 'shear', words: 'Shear nut', note: 'MS20364, AN320' },
] as const;

/** The general table, for a maker who gives no torque: by thread and kind of nut, with its caution. */
export function GeneralTorque({
  rows,
  thread,
  nut,
  onChange,
}: {
  rows: TorqueChoices['generalTorques'];
  thread: string;
  nut: 'tension' | 'shear';
  onChange: (over: { thread?: string; nut?: 'tension' | 'shear' }) => void;
}) {
  const threads = [...new Set(rows.map((row) => row.thread))];
  const row = rows.find((each) => each.thread === thread && each.nut === nut);
  return (
    <>
      <p className={styles.flag}>
        Only where the maker gives none. Look in the current manual first.
      </p>
      <Select
        label="Thread"
        options={[
          { value: '', words: 'choose' },
          ...threads.map((each) => ({ value: each, words: each })),
        ]}
        value={thread}
        onChange={(event) => onChange({ thread: event.currentTarget.value })}
      />
      <Choices
        legend="The nut"
        name="nut"
        options={nuts}
        value={nut}
        onChoose={(value) => onChange({ nut: value as 'tension' | 'shear' })}
      />
      {row === undefined ? null : (
        <p role="status">
          <span className={styles.figures}>
            {row.from} to {row.to}
          </span>{' '}
          in-lb, never beyond <span className={styles.figures}>{row.most}</span>, friction drag not
          counted{row.estimated ? '; estimated in the table' : ''}. AC 43.13-1B, table 7-1, oil-free
          cadmium-plated steel.
        </p>
      )}
    </>
  );
}
