'use client';

import { useSyncExternalStore } from 'react';
import { chooseScheme, currentScheme, type Scheme, watchScheme } from '../lib/scheme.ts';
import styles from './SchemeSwitch.module.css';

const choices: readonly { scheme: Scheme; words: string }[] = [
  { scheme: 'day', words: 'Day sheet' },
  { scheme: 'night', words: 'Night shift' },
];

/** Day sheet or night shift; the device decides until a person does. */
export function SchemeSwitch() {
  const scheme = useSyncExternalStore<Scheme | null>(watchScheme, currentScheme, () => null);
  return (
    <fieldset className={styles.switch} aria-label="Light of the sheet">
      {choices.map((choice) => (
        <button
          key={choice.scheme}
          type="button"
          className={styles.choice}
          aria-pressed={scheme === choice.scheme}
          onClick={() => chooseScheme(choice.scheme)}
        >
          {choice.words}
        </button>
      ))}
    </fieldset>
  );
}
