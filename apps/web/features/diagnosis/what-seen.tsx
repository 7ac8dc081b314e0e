'use client';

import { type AircraftKind, type Sighting, suggest, tables } from '@fairlead/diagnosis';
import { Caution } from '../../components/Caution.tsx';
import { CauseList } from './cause-row.tsx';
import styles from './diagnosis.module.css';
import { NextLooks } from './next-look.tsx';
import { causeShown, lookShown } from './shown.ts';
import { SymptomSteps } from './symptom-steps.tsx';

const SHOWN = 3;

/**
 * What the finder sees, and what it may be by the program's tables: all of it on this device. What the shop has closed
 * before counts once the finding is noted, because only the server knows it.
 */
export function WhatSeen({
  aircraft,
  sighting,
  onSighting,
}: {
  aircraft: AircraftKind;
  sighting: Sighting | null;
  onSighting: (sighting: Sighting | null) => void;
}) {
  const answered = sighting !== null && Object.keys(sighting.seen).length > 0;
  return (
    <div className={styles.steps}>
      <SymptomSteps aircraft={aircraft} sighting={sighting} onSighting={onSighting} />
      {answered ? <Preview sighting={sighting} onSighting={onSighting} /> : null}
    </div>
  );
}

function Preview({
  sighting,
  onSighting,
}: {
  sighting: Sighting;
  onSighting: (sighting: Sighting) => void;
}) {
  const { says, causes, next, leak, cautions } = suggest(tables, sighting);
  return (
    <section className={styles.part} aria-labelledby="may-be">
      <h3 id="may-be">What it may be</h3>
      <p role="status">{says}</p>
      {leak === null ? null : <Caution head="Size of the leak" hazards={[leak]} />}
      <CauseList causes={causes.slice(0, SHOWN).map(causeShown)} />
      <NextLooks
        looks={next
          .filter(({ kind }) => kind === 'check')
          .slice(0, 2)
          .map(lookShown)}
        onAnswer={(question, answer) =>
          onSighting({ ...sighting, seen: { ...sighting.seen, [question]: answer } })
        }
      />
      <p className={styles.second}>
        By the program’s tables alone. What this shop has closed before counts once it is noted.
      </p>
      <ul className={styles.cautions}>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </section>
  );
}
