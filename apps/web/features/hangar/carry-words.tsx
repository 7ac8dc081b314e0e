'use client';

import { useSyncExternalStore } from 'react';
import styles from './carry.module.css';
import type { CarryStore } from './carry-store.ts';

/** What letting go would mean, live; and before that, how it is done. */
export function CarryWords({ store }: { store: CarryStore }) {
  const state = useSyncExternalStore(store.subscribe, store.state, store.state);
  const carried = state.step === 'carried' ? state : null;
  const verdict = carried === null ? null : store.verdict(carried.target);
  const refused = verdict?.kind === 'tight' || (state.step === 'none' && state.refused);
  const words =
    state.step === 'none'
      ? state.said
      : state.step === 'put'
        ? ''
        : (verdict?.sentence ??
          `${carried?.what.aircraft.registration} is in hand: over a stand, or out of the door.`);
  return (
    <div className={styles.words} data-screen-only data-carrying={carried ? '' : undefined}>
      <p role="status" aria-label="In hand" data-refused={refused ? '' : undefined}>
        {words}
      </p>
      <p className={styles.how} id="how-to-carry">
        {carried === null
          ? 'Drag an aircraft to a stand or out of the door. Or press it, then the stand; by keyboard Enter takes it, arrows choose, Enter puts it down.'
          : carried.by === 'pointer'
            ? 'Let go to put it there; Escape puts it back. You are asked before anything is saved.'
            : 'Arrows choose, Enter puts it there, Escape puts it back. You are asked before anything is saved.'}
      </p>
    </div>
  );
}
