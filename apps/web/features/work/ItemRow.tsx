'use client';

import { Hatch } from '../../components/Hatch.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import styles from './bench.module.css';
import type { ItemHere } from './use-bench.ts';
import { ViewLink } from './view.tsx';
import { stateMarks, waitingWords } from './work-words.ts';

/** An item as a row: the wide part starts its clock, the narrow one opens its sheet. */
export function ItemRow({
  item,
  running,
  personId,
  onPress,
}: {
  item: ItemHere;
  running: boolean;
  personId: string;
  onPress: () => void;
}) {
  const mark = stateMarks[item.state];
  const others = item.runningBy.filter(({ id }) => id !== personId).map(({ name }) => name);
  const sheet = { kind: 'item', id: item.id } as const;
  const startable = !running && item.state !== 'done';
  const inside = (
    <>
      <span className={styles.rowTitle}>
        <span className={styles.place}>{item.position}</span>
        {item.title}
      </span>
      <span className={styles.rowState}>
        <Hatch
          state={running ? 'in_work' : mark.state}
          word={running ? 'your clock runs' : item.unsent ? `${mark.word}, not sent` : mark.word}
          {...(item.waitingFor === null || running
            ? {}
            : { waitsFor: waitingWords[item.waitingFor] })}
        />
        {item.secondsWorked > 0 ? (
          <span className={styles.figures}>
            <span className="spoken">clocked </span>
            {clockText(item.secondsWorked)}
            <span className="spoken"> hours</span>
          </span>
        ) : null}
      </span>
      {others.length === 0 ? null : (
        <span className={styles.second}>{others.join(', ')} at work on it</span>
      )}
      {item.stoppedHere.map(({ id, by, loose, notDone }) => (
        <span key={id} className={styles.stopped}>
          {by.name} stopped here: {loose === '' ? notDone : `loose: ${loose}`}
        </span>
      ))}
    </>
  );
  return (
    <li className={styles.row} data-running={running ? '' : undefined}>
      {startable ? (
        <button type="button" className={styles.press} onClick={onPress}>
          <span className="spoken">Start: </span>
          {inside}
        </button>
      ) : (
        <ViewLink className={styles.press} view={sheet}>
          {inside}
        </ViewLink>
      )}
      {startable ? (
        <ViewLink className={styles.open} view={sheet}>
          Sheet<span className="spoken"> of {item.title}</span>
        </ViewLink>
      ) : null}
    </li>
  );
}
