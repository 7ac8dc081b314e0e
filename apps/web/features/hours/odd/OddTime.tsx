import { More } from '../../../components/More.tsx';
import { calendarDateText, dayAndTimeText } from '../../../lib/figures/dates.ts';
import { hoursText } from '../../../lib/figures/hours.ts';
import type { LogScale } from '../log-scale.ts';
import { DecideForm } from './DecideForm.tsx';
import { OddDrawing } from './OddDrawing.tsx';
import styles from './odd.module.css';
import type { Tasks, Watched } from './odd-document.ts';

const factsOf = ({ own, orderNumber, registration, model, mechanics, completedOn }: Watched) =>
  [
    registration,
    model,
    mechanics.join(', '),
    calendarDateText(String(completedOn)),
    own ? `order ${orderNumber ?? ''}` : 'from a history file',
  ]
    .filter((each) => each !== '')
    .join(' · ');

/** A time that looks odd: what was expected, what was clocked, why it is doubted, and what can be done. */
export function OddTime({ time, scale, tasks }: { time: Watched; scale: LogScale; tasks: Tasks }) {
  const { proposal } = time;
  if (proposal === null) return null;
  return (
    <li className={styles.time}>
      <div className={styles.head}>
        <h3>{time.title}</h3>
        <p className={styles.second}>{factsOf(time)}</p>
      </div>
      <div className={styles.seen}>
        <OddDrawing expected={proposal} hours={time.hours} scale={scale} />
        <p>
          <strong>{inHours(time.hours)} clocked</strong>, {hoursText(proposal.p50)} h expected,{' '}
          {hoursText(proposal.p10)} to {hoursText(proposal.p90)} eight times in ten. It counts as{' '}
          {weightText(proposal.weight)} of a job.
        </p>
      </div>
      <div className={styles.why}>
        <ul>
          {proposal.reasons.map(({ words }) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
        {time.itemId === null ? null : (
          <p>
            Was the clock wrong?{' '}
            <a href={`/bench?item=${encodeURIComponent(time.itemId)}`}>
              Correct the clock<span className="spoken"> of {time.title}</span>
            </a>
            : then the cost and the invoice are right as well.
          </p>
        )}
        <More words="Decide">
          <DecideForm time={time} tasks={tasks} />
        </More>
      </div>
    </li>
  );
}

/** Minutes count where hours are few: 0.42 h, 3.1 h. */
const inHours = (hours: number) => `${hoursText(hours, hours < 2 ? 2 : 1)} h`;

const weightText = (weight: number) => (weight < 0.01 ? 'less than 0.01' : weight.toFixed(2));

/** A time that was decided about: the newest decision, what went before it, and deciding again. */
export function DecidedTime({
  time,
  tasks,
  timeZone,
}: {
  time: Watched;
  tasks: Tasks;
  timeZone: string;
}) {
  const [newest, ...earlier] = time.decisions;
  if (newest === undefined) return null;
  const titleOf = (key: string | null) =>
    tasks.find(({ task }) => task === key)?.title ?? key ?? '';
  const words = (decision: typeof newest) =>
    ({
      stands: 'it stands',
      left_out: 'left out of learning',
      taken_as: `taken as ${inHours(decision.hours ?? 0)}`,
      other_task: `it was “${titleOf(decision.task)}”`,
    })[decision.verdict];
  const sentence = (decision: typeof newest) =>
    `${decision.decidedBy}, ${dayAndTimeText(String(decision.decidedAt), timeZone)}: ${decision.reason}`;
  return (
    <li className={styles.time}>
      <div className={styles.head}>
        <h3>{time.title}</h3>
        <p className={styles.second}>{factsOf(time)}</p>
      </div>
      <div className={styles.why}>
        <p>
          <strong>
            {inHours(time.hours)} clocked; {words(newest)}.
          </strong>
        </p>
        <p>{sentence(newest)}</p>
        {newest.proposed.map((reason) => (
          <p key={reason} className={styles.second}>
            It had looked odd: {reason}
          </p>
        ))}
        {earlier.map((decision) => (
          <p key={String(decision.decidedAt)} className={styles.second}>
            Before: {words(decision)}. {sentence(decision)}
          </p>
        ))}
      </div>
      <div className={styles.again}>
        <More words="Decide again">
          <DecideForm key={time.decisions.length} time={time} tasks={tasks} />
        </More>
      </div>
    </li>
  );
}
