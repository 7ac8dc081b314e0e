import { dayAfter, daysBetween, sayCivilDay } from '@fairlead/hangar';
import styles from './DayDimension.module.css';
import { At, End } from './marks.tsx';

/** When an aircraft is ready, as the API says it; days as `YYYY-MM-DD`. */
export interface DaysPromised {
  beginsOn: string;
  p50: string | null;
  p80: string | null;
  /** While something is not known: the days if it came at once. */
  atBestP50: string | null;
  atBestP80: string | null;
  sentence: string;
  /** What the days from the beginning to the P80 are made of; they add up to them. */
  parts?: { work: number; away: number; others: number; waits: number } | null;
}

const causes = {
  work: 'the work',
  away: 'people away',
  others: 'other aircraft',
  waits: 'waiting',
};
const letters = ['S', 'M', 'T', 'W', 'T', 'F', 'S'];
/** More days than these are marked by their Mondays. */
const MOST_LETTERS = 21;

const weekdayOf = (day: string) => new Date(`${day}T12:00:00Z`).getUTCDay();

/**
 * A promise as a dimension on an axis of days: from the beginning to the end of the day by which it is ready in four cases
 * of five (open triangle), with a stroke at the day that is as likely as not. Where something is not known the line
 * has no end.
 */
export function DayDimension({
  promise,
  label = 'Ready',
}: {
  promise: DaysPromised;
  label?: string;
}) {
  const { beginsOn, sentence, parts } = promise;
  const open = promise.p80 === null;
  const [p50, p80] = [promise.p50 ?? promise.atBestP50, promise.p80 ?? promise.atBestP80];
  if (p50 === null || p80 === null) {
    return (
      <figure className={styles.figure}>
        <figcaption className={styles.caption}>
          <span>{label}</span>
          <b>no day yet</b>
        </figcaption>
        <p className={styles.sentence}>{sentence}</p>
      </figure>
    );
  }
  const say = (day: string) => sayCivilDay(day, beginsOn);
  // A line is drawn to the end of a day, and some room is left after the last.
  const upTo = (day: string) => daysBetween(beginsOn, day) + 1;
  const room = Math.max(7, Math.ceil(upTo(p80) * 1.15));
  const at = (days: number) => `${(days / room) * 100}%`;
  const days = Array.from({ length: room }, (_, index) => dayAfter(beginsOn, index));
  const dated = datedMondays(days);
  return (
    <figure className={styles.figure}>
      <figcaption className={styles.caption}>
        <span>{label}</span>
        {open ? (
          <b>no day yet</b>
        ) : (
          <span className={styles.days}>
            {p50 === p80 ? null : (
              <span>
                as likely as not by <b>{say(p50)}</b>
              </span>
            )}
            <span>
              four in five by <b>{say(p80)}</b>
            </span>
          </span>
        )}
      </figcaption>
      <svg className={styles.drawing} aria-hidden="true">
        {days.map((day, index) =>
          [0, 6].includes(weekdayOf(day)) && room <= MOST_LETTERS * 2 ? (
            <rect
              key={day}
              className={styles.weekend}
              x={at(index)}
              y="34"
              width={at(1)}
              height="10"
            />
          ) : null,
        )}
        <line className={styles.base} x1="0" x2="100%" y1="44" y2="44" />
        {days.map((day, index) =>
          room <= MOST_LETTERS * 2 || weekdayOf(day) === 1 ? (
            <line
              key={day}
              className={styles.base}
              x1={at(index)}
              x2={at(index)}
              y1={weekdayOf(day) === 1 ? 38 : 41}
              y2="44"
            />
          ) : null,
        )}
        <line
          x1="0"
          x2={at(upTo(p80))}
          y1="20"
          y2="20"
          stroke="currentColor"
          strokeDasharray={open ? '6 4' : undefined}
        />
        <End x="0" y="20" up={10} down={24} />
        {open ? (
          <line
            x1={at(upTo(p80))}
            x2="100%"
            y1="20"
            y2="20"
            stroke="currentColor"
            strokeDasharray="1 7"
          />
        ) : (
          <End x={at(upTo(p80))} y="20" up={0} down={24} />
        )}
        <At x={at(upTo(p80))} y="20">
          <path d="M0-1.5-6-12H6Z" fill="var(--ground)" stroke="currentColor" strokeWidth="1.25" />
        </At>
        <At x={at(upTo(p50))} y="20">
          <path d="M0-13V24" stroke="currentColor" strokeWidth="2" />
        </At>
      </svg>
      <div className={styles.axis} aria-hidden="true">
        {days.map((day, index) => {
          const begins = index === 0;
          return room > MOST_LETTERS && !begins && !dated.has(index) ? null : (
            <span key={day} style={{ left: at(index), width: at(1) }}>
              {room <= MOST_LETTERS ? <i>{letters[weekdayOf(day)]}</i> : null}
              {begins || dated.has(index) ? (
                <small>{begins ? `begins ${say(day)}` : say(day).replace(/^\w+ /, '')}</small>
              ) : null}
            </span>
          );
        })}
      </div>
      <p className={styles.sentence}>{open ? sentence : reasonOf(sentence)}</p>
      {parts === null || parts === undefined || madeOf(parts) === null ? null : (
        <p className={styles.parts}>{madeOf(parts)}</p>
      )}
    </figure>
  );
}

/** The sentence says the days first, which are drawn and written above it; the reason follows. */
function reasonOf(sentence: string): string {
  const reason = sentence.slice(sentence.indexOf(': ') + 2);
  return reason.charAt(0).toUpperCase() + reason.slice(1);
}

/** At most two Mondays with their dates, right of where the beginning is written, so that they never meet on a telephone. */
function datedMondays(days: readonly string[]): ReadonlySet<number> {
  const may = days.flatMap((day, index) =>
    weekdayOf(day) === 1 && index >= days.length * 0.45 && index <= days.length * 0.82
      ? [index]
      : [],
  );
  const [first, last] = [may[0], may.at(-1)];
  const apart = first !== undefined && last !== undefined && last - first >= days.length * 0.25;
  return new Set([first, apart ? last : undefined].filter((index) => index !== undefined));
}

/** The days by cause, adding up; null where one cause is all of it. */
function madeOf(parts: NonNullable<DaysPromised['parts']>): string | null {
  const some = (['work', 'away', 'others', 'waits'] as const).filter((cause) => parts[cause] > 0);
  if (some.length < 2) return null;
  const sum = some.reduce((all, cause) => all + parts[cause], 0);
  return `${some.map((cause) => `${causes[cause]} ${parts[cause]}`).join(' + ')} = ${sum} days on from the beginning`;
}
