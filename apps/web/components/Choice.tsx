import type { ReactNode } from 'react';
import styles from './Choice.module.css';

export interface Option {
  value: string;
  words: string;
  note?: ReactNode;
  disabled?: boolean;
}

/** One of a few, as full-width rows. Works inside a plain form without script. */
export function Choices({
  legend,
  name,
  options,
  value,
  startsAt,
  onChoose,
  required = false,
}: {
  legend: string;
  name: string;
  options: readonly Option[];
  /** The chosen value where the page keeps it; leave out in a plain form. */
  value?: string;
  /** The value chosen at first in a plain form. */
  startsAt?: string;
  onChoose?: (value: string) => void;
  required?: boolean;
}) {
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>{legend}</legend>
      {options.map((option) => (
        <label key={option.value} className={styles.row}>
          <input
            className={styles.mark}
            type="radio"
            name={name}
            value={option.value}
            required={required}
            disabled={option.disabled ?? false}
            {...(onChoose === undefined
              ? { defaultChecked: startsAt === option.value }
              : { checked: value === option.value, onChange: () => onChoose(option.value) })}
          />
          <span>
            <span className={styles.words}>{option.words}</span>
            {option.note === undefined ? null : <span className={styles.note}>{option.note}</span>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** Yes or no to one thing, as a full-width row; `plain`: as a line of a list, which has rules of its own. */
export function Tick({
  name,
  words,
  note,
  ticked,
  onTick,
  required = false,
  plain = false,
}: {
  name: string;
  words: string;
  note?: ReactNode;
  ticked?: boolean;
  onTick?: (ticked: boolean) => void;
  required?: boolean;
  plain?: boolean;
}) {
  return (
    <label className={plain ? styles.plain : styles.row}>
      <input
        className={styles.mark}
        type="checkbox"
        name={name}
        required={required}
        {...(onTick === undefined
          ? { defaultChecked: ticked ?? false }
          : { checked: ticked ?? false, onChange: (event) => onTick(event.currentTarget.checked) })}
      />
      <span>
        <span className={styles.words}>{words}</span>
        {note === undefined ? null : <span className={styles.note}>{note}</span>}
      </span>
    </label>
  );
}

/** A row that decides at once: "Go ahead", "Not now", "Talk to me first". */
export function ChoicePress({
  words,
  note,
  kind = 'outline',
  name,
  value,
  type = 'submit',
  disabled = false,
  onPress,
}: {
  words: string;
  note?: ReactNode;
  kind?: 'primary' | 'outline';
  name?: string;
  value?: string;
  type?: 'submit' | 'button';
  disabled?: boolean;
  onPress?: () => void;
}) {
  return (
    <button
      className={styles.press}
      data-kind={kind}
      type={type}
      name={name}
      value={value}
      disabled={disabled}
      onClick={onPress}
    >
      <span>
        <span className={styles.words}>{words}</span>
        {note === undefined ? null : <span className={styles.note}>{note}</span>}
      </span>
      <svg viewBox="0 0 22 14" aria-hidden="true">
        <path d="M0 7H12M12 1.5 21 7 12 12.5Z" fill="none" stroke="currentColor" strokeWidth="2" />
      </svg>
    </button>
  );
}
