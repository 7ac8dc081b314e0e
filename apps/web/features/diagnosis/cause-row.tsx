'use client';

import { type ReactNode, useState } from 'react';
import { Balloon } from '../../components/Balloon.tsx';
import styles from './diagnosis.module.css';
import { ProbabilityLine } from './probability-line.tsx';
import { type CauseShown, chanceText } from './shown.ts';

/** One cause with how likely it is; touched, what speaks for and against it, and what it leads to. */
export function CauseRow({
  place,
  cause,
  work,
}: {
  place: number;
  cause: CauseShown;
  /** The work that it leads to, asked for when somebody opens the row. */
  work?: (cause: CauseShown) => ReactNode;
}) {
  const [opened, setOpened] = useState(false);
  const { name, kind, probability, why, source, remedy, workTitle, reasons } = cause;
  const told = reasons.filter(({ speaks }) => speaks !== 'neither');
  return (
    <li className={styles.cause}>
      <details onToggle={(event) => event.currentTarget.open && setOpened(true)}>
        <summary className={styles.head}>
          <Balloon number={place} />
          <span className={styles.name}>
            {name}
            {kind === 'normal' ? <span className={styles.kind}>normal: no action</span> : null}
          </span>
          <span className={styles.chance}>{chanceText(probability)}</span>
          <span className={styles.drawn}>
            <ProbabilityLine probability={probability} />
          </span>
          <span className={styles.open}>
            why<span className="spoken"> {name}</span>
          </span>
        </summary>
        <div className={styles.body}>
          {why === '' ? null : <p>{why}</p>}
          {told.length === 0 ? (
            <p className={styles.second}>Nothing that was seen speaks for or against it.</p>
          ) : (
            <ul className={styles.reasons}>
              {told.map(({ sentence, speaks, source: from }) => (
                <li key={sentence} data-speaks={speaks}>
                  <b>{speaks === 'for' ? 'For' : 'Against'}</b>
                  <span>
                    {sentence}
                    {from === null ? null : <small>Source: {from}.</small>}
                  </span>
                </li>
              ))}
            </ul>
          )}
          <p>
            <b>What is done:</b> {remedy}
          </p>
          {workTitle !== null && opened && work ? work(cause) : null}
          <p className={styles.second}>That it may be this: {source}.</p>
        </div>
      </details>
    </li>
  );
}

/** So many rows stand there at least; a rarer cause than this is one of the others. */
const LEAST = 2;
const RARE = 0.01;

/** The likeliest causes, in order. */
export function CauseList({
  causes,
  work,
}: {
  causes: readonly CauseShown[];
  work?: (cause: CauseShown) => ReactNode;
}) {
  const worth = causes.filter(({ probability }, index) => index < LEAST || probability >= RARE);
  const shown = worth.reduce((sum, { probability }) => sum + probability, 0);
  return (
    <>
      <ol className={styles.causes}>
        {worth.map((cause, index) => (
          <CauseRow
            key={cause.cause}
            place={index + 1}
            cause={cause}
            {...(work === undefined ? {} : { work })}
          />
        ))}
      </ol>
      {shown > 0.995 ? null : (
        <p className={styles.second}>All others together: {chanceText(1 - shown)}.</p>
      )}
    </>
  );
}
