import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { dayOf } from '../../lib/shop-time.ts';
import { Delta } from './delta.tsx';
import type { Change, Floor } from './floor-documents.ts';
import { standName } from './floor-words.ts';
import { PromiseLine } from './promise-line.tsx';
import styles from './revisions.module.css';
import { conflictsAt } from './standing.ts';
import type { Carrying } from './use-carrying.ts';

/** What a row changes: "QQ-156 comes to stand 4". */
export function changeWords({ kind, late, stay }: Change): string {
  const place = standName(stay.stand.name);
  const { registration } = stay.aircraft;
  if (late)
    return kind === 'departure'
      ? `${registration} should have left ${place}`
      : `${registration} should have come to ${place}`;
  if (kind === 'departure') return `${registration} leaves ${place}`;
  return `${registration} ${kind === 'move' ? 'moves' : 'comes'} to ${place}`;
}

/** Whether what a row says cannot be at that moment. */
const isDoubtful = ({ conflicts }: Floor, { at, stay }: Change): boolean =>
  conflictsAt(conflicts, at).some(({ stayIds }) => stayIds.includes(stay.id));

/**
 * Time as a drawing has it: each arrival, move and departure of the fourteen days is a numbered
 * row. Touching a row or coming to it with the keyboard draws the floor as it will be then.
 */
export function RevisionTable({
  floor,
  row,
  timeZone,
  carrying,
  onDraw,
}: {
  floor: Floor;
  /** The row that is drawn; null is now. */
  row: number | null;
  timeZone: string;
  /** For those who plan: a plan is taken from its row onto the drawing. */
  carrying: Carrying | null;
  onDraw: (row: number | null) => void;
}) {
  return (
    <ol className={styles.rows}>
      <li>
        <button
          type="button"
          className={styles.row}
          aria-pressed={row === null}
          onClick={() => onDraw(null)}
          onFocus={() => onDraw(null)}
        >
          <span />
          <time dateTime={floor.asOf}>{dayAndTimeText(floor.asOf, timeZone)}</time>
          <span>now</span>
        </button>
      </li>
      {floor.coming.map((change, index) => (
        <li key={`${change.stay.id} ${change.kind}`} className={styles.change}>
          <button
            type="button"
            className={styles.row}
            aria-pressed={row === index}
            onClick={() => onDraw(index)}
            onFocus={() => onDraw(index)}
          >
            <Delta number={index + 1} />
            <time dateTime={change.at}>{dayAndTimeText(change.at, timeZone)}</time>
            <span>
              {changeWords(change)}
              {change.stay.order === null ? null : (
                <span className={styles.because}>, {change.stay.order.title}</span>
              )}
              {change.late ? <span className={styles.late}> late</span> : null}
              {isDoubtful(floor, change) ? <span className={styles.wrong}> cannot be</span> : null}
              {change.kind === 'departure' && change.stay.order?.promisedAtArrival ? (
                <PromiseLine
                  promised={change.stay.order.promisedAtArrival}
                  today={dayOf(floor.asOf, timeZone)}
                  leavesOn={dayOf(change.at, timeZone)}
                />
              ) : null}
            </span>
          </button>
          {carrying === null || change.kind === 'departure' ? null : (
            <button
              type="button"
              className={styles.take}
              data-screen-only
              aria-label={`Take ${change.stay.aircraft.registration} to another place`}
              {...carrying.handlers({ aircraft: change.stay.aircraft, stay: change.stay }, null)}
            >
              take
            </button>
          )}
        </li>
      ))}
      {floor.coming.length === 0 ? (
        <li className={styles.none}>Nothing comes, moves or leaves in the coming fourteen days.</li>
      ) : null}
    </ol>
  );
}
