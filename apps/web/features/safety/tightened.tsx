import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import type { CompressionNow, TorqueNow } from './care-now.ts';
import styles from './safety.module.css';
import { unitWords } from './safety-words.ts';

/** What was torqued at an item, each with its wrench; one whose calibration had lapsed says so. */
export function Torques({
  torques,
  timeZone,
}: {
  torques: readonly TorqueNow[];
  timeZone: string;
}) {
  if (torques.length === 0) return null;
  return (
    <ul className={styles.lines}>
      {torques.map((each) => {
        const unit = unitWords(each.unit);
        return (
          <li key={each.id} className={styles.line}>
            <div>
              <p className={styles.what}>{each.fastener}</p>
              <p>
                <span className={styles.figures}>{each.torque}</span> {unit}
                {Number(each.drag) > 0 ? ` and ${each.drag} of drag` : ''}
                {each.extension === null ? '' : `, adapter ${each.extension} on ${each.lever}`}
                {each.setting === each.torque ? '' : `: set to ${each.setting}`}
                {each.source === 'general'
                  ? `; general table, ${each.thread}`
                  : '; by the maker’s data'}
              </p>
              <p className={styles.second}>
                {each.tool.name} {each.tool.number}, {each.by.name},{' '}
                {dayAndTimeText(each.at, timeZone)}
                {each.unsent ? '; not sent yet' : ''}
              </p>
              {each.lapsed ? (
                <p className={styles.flag}>
                  Calibration lapsed after {calendarDateText(each.goodUntil)}: {each.reason}
                </p>
              ) : null}
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** Compression checks at an item; a cylinder that lost more than a quarter is marked. */
export function Compressions({
  compressions,
  timeZone,
}: {
  compressions: readonly CompressionNow[];
  timeZone: string;
}) {
  if (compressions.length === 0) return null;
  return (
    <ul className={styles.lines}>
      {compressions.map(({ id, engine, supply, cylinders, by, at, note, unsent }) => (
        <li key={id} className={styles.line}>
          <div>
            <p className={styles.what}>
              {engine === '' ? 'Compression' : `Compression, ${engine}`}
            </p>
            <p>
              {cylinders.map(({ number, held, inExcess }) => (
                <span key={number} className={inExcess ? styles.oxide : undefined}>
                  <span className="spoken">cylinder </span>
                  {number}: <span className={styles.figures}>{`${held}/${supply}`}</span>
                  {inExcess ? ' suspect' : ''}
                  {number < cylinders.length ? ' · ' : ''}
                </span>
              ))}
            </p>
            {note === '' ? null : <p>{note}</p>}
            <p className={styles.second}>
              {by.name}, {dayAndTimeText(at, timeZone)}
              {unsent ? '; not sent yet' : ''}
            </p>
            {cylinders.some(({ inExcess }) => inExcess) ? (
              <p className={styles.oxide}>
                A loss in excess of a quarter: cause to suspect it. Note a finding.
              </p>
            ) : null}
          </div>
        </li>
      ))}
    </ul>
  );
}
