'use client';

import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { clockText } from '../../lib/figures/hours.ts';
import { wallOf } from '../../lib/shop-time.ts';
import styles from './bench.module.css';
import { CorrectClock } from './CorrectClock.tsx';
import type { ItemOnSheet } from './item-documents.ts';
import type { ClockCorrected } from './use-bench.ts';

/** Who worked on an item when. One's own stretches can be given better times, by the manager all of them. */
export function Clocked({
  item,
  personId,
  correctsAll,
  timeZone,
  supervisors,
  onCorrect,
}: {
  item: ItemOnSheet;
  personId: string;
  correctsAll: boolean;
  timeZone: string;
  supervisors: readonly { id: string; name: string }[];
  onCorrect: (ends: readonly ClockCorrected[]) => void;
}) {
  if (item.stretches.length === 0) return null;
  return (
    <section aria-labelledby="clocked">
      <h2 id="clocked">What was clocked</h2>
      <ul className={styles.events}>
        {item.stretches.map((stretch) => {
          const words = said(stretch, timeZone);
          return (
            <li key={stretch.id}>
              <p className={styles.stretch}>
                <span>{words}</span>
                <span>
                  <span className={styles.figures}>{clockText(stretch.seconds)}</span> h
                </span>
              </p>
              <p className={styles.second}>
                {stretch.person.name}
                {stretch.supervisedBy ? `, under ${stretch.supervisedBy.name}` : ''}
              </p>
              {(correctsAll || stretch.person.id === personId) && stretch.began !== null ? (
                <details>
                  <summary className={styles.summary}>
                    <span>
                      The clock was wrong<span className="spoken">: {words}</span>
                    </span>
                  </summary>
                  <CorrectClock
                    key={`${stretch.startedAt} ${String(stretch.endedAt)}`}
                    stretch={stretch}
                    itemId={item.id}
                    timeZone={timeZone}
                    supervisors={
                      stretch.person.apprentice
                        ? supervisors.filter(({ id }) => id !== stretch.person.id)
                        : []
                    }
                    onCorrect={onCorrect}
                  />
                </details>
              ) : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** From when to when; the day once where both ends are of one day. */
function said(stretch: ItemOnSheet['stretches'][number], timeZone: string): string {
  const from = dayAndTimeText(String(stretch.startedAt), timeZone);
  if (stretch.endedAt === null) return `${from}, still runs`;
  const [end, start] = [stretch.endedAt, stretch.startedAt].map((at) =>
    wallOf(String(at), timeZone),
  );
  return end?.slice(0, 10) === start?.slice(0, 10)
    ? `${from} to ${end?.slice(11)}`
    : `${from} to ${dayAndTimeText(String(stretch.endedAt), timeZone)}`;
}
