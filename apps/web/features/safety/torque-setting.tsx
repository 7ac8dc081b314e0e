'use client';

import { useQuery } from '@tanstack/react-query';
import { useDeferredValue } from 'react';
import type { TorqueUnit } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { TorqueSettingDocument } from './item-documents.ts';
import styles from './safety.module.css';
import { unitWords } from './safety-words.ts';

export interface Asked {
  torque: string;
  unit: TorqueUnit;
  drag: string | null;
  lever: string | null;
  extension: string | null;
}

/** A decimal as typed, with a point or a comma; null where it is none. */
export function decimalOf(typed: string, { minus = false } = {}): string | null {
  const text = typed.trim().replace(',', '.').replace('−', '-');
  return (minus ? /^-?\d{1,6}(\.\d{1,2})?$/ : /^\d{1,6}(\.\d{1,2})?$/).test(text) ? text : null;
}

/** What the wrench is set to, reckoned by the shop's server: (torque + drag) · L / (L + E). */
export function TorqueSetting({ asked }: { asked: Asked }) {
  const wanted = useDeferredValue(asked);
  const reckoned = useQuery({
    queryKey: ['torqueSetting', wanted],
    queryFn: async () => (await request(TorqueSettingDocument, wanted)).torqueSetting,
    placeholderData: (before) => before,
  });
  const said = reckoned.data;
  return (
    <p role="status">
      Set the wrench to{' '}
      {said?.__typename === 'TorqueSetting' ? (
        <strong className={styles.setting}>
          {said.setting} {unitWords(asked.unit)}
        </strong>
      ) : (
        <span className={styles.second}>
          {said?.__typename === 'Refusal'
            ? said.message
            : (reckoned.error?.message ?? 'what is being reckoned')}
        </span>
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
