import { Balloon } from '../../components/Balloon.tsx';
import type { Forgotten } from './bench-documents.ts';
import styles from './forgotten.module.css';
import { rememberedAt } from './forgotten-words.ts';

/** The time that a clock ran, as a dimension line: solid up to the last likely stop, dashed where it is doubted. */
export function ForgottenLine({
  clock,
  timeZone,
  now,
}: {
  clock: Forgotten;
  timeZone: string;
  /** The shop's time, milliseconds since 1970. */
  now: number;
}) {
  const from = Date.parse(String(clock.startedAt));
  const to = Math.max(from + 1, clock.endedAt === null ? now : Date.parse(String(clock.endedAt)));
  const at = (instant: unknown) => ((Date.parse(String(instant)) - from) / (to - from)) * 100;
  const last = clock.suggestions.at(-1);
  const sure = last ? at(last.at) : 0;
  return (
    <div className={styles.line} aria-hidden="true">
      <svg viewBox="0 0 100 24" preserveAspectRatio="none" aria-hidden="true">
        <path className={styles.sure} d={`M0 12H${sure}`} />
        <path className={styles.doubted} d={`M${sure} 12H100`} />
        <path className={styles.ends} d={clock.endedAt === null ? 'M0 2V22' : 'M0 2V22M100 2V22'} />
      </svg>
      {clock.suggestions.map(({ at: instant }, index) => (
        <span key={String(instant)} style={{ insetInlineStart: `${at(instant)}%` }}>
          <Balloon number={index + 1} />
        </span>
      ))}
      <p>
        <span>{rememberedAt(String(clock.startedAt), timeZone)}</span>
        <span>
          {clock.endedAt === null ? 'runs still' : rememberedAt(String(clock.endedAt), timeZone)}
        </span>
      </p>
    </div>
  );
}
