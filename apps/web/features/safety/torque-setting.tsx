'use client';

import type { TorqueUnit } from '../../graphql/generated/graphql.ts';
import styles from './safety.module.css';
import { unitWords } from './safety-words.ts';
import { type Reckoned, settingOf } from './torque-reckoned.ts';

export interface Asked extends Reckoned {
  unit: TorqueUnit;
}

/** A decimal as typed, with a point or a comma; null where it is none. */
export function decimalOf(typed: string, { minus = false } = {}): string | null {
  const text = typed.trim().replace(',', '.').replace('−', '-');
  return (minus ? /^-?\d{1,6}(\.\d{1,2})?$/ : /^\d{1,6}(\.\d{1,2})?$/).test(text) ? text : null;
}

/** What the wrench is set to: (torque + drag) · L / (L + E). */
export function TorqueSetting({ asked }: { asked: Asked }) {
  const setting = settingOf(asked);
  return (
    <p role="status">
      Set the wrench to{' '}
      {setting === null ? (
        <span className={styles.second}>
          nothing: needed are a torque above 0 and an adapter shorter than the wrench
        </span>
      ) : (
        <strong className={styles.setting}>
          {setting} {unitWords(asked.unit)}
        </strong>
      )}
      {asked.lever === null ? null : (
        <span className={styles.reckoned}>
          torque {asked.drag === null ? '' : 'and drag '}× {asked.lever} / ({asked.lever}{' '}
          {asked.extension?.startsWith('-') ? '−' : '+'} {asked.extension?.replace('-', '')})
        </span>
      )}
    </p>
  );
}
