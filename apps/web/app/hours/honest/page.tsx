'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../../components/Button.tsx';
import { Empty, Loading } from '../../../components/Empty.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Day } from '../../../components/Figure.tsx';
import { Sheet } from '../../../components/Sheet.tsx';
import { CoverageMonths } from '../../../features/hours/CoverageMonths.tsx';
import { HoursSheets } from '../../../features/hours/HoursSheets.tsx';
import honest from '../../../features/hours/honest/honest.module.css';
import {
  type Backtest,
  ByMechanicDocument,
  HonestyDocument,
} from '../../../features/hours/honest/honest-document.ts';
import { RivalLines } from '../../../features/hours/honest/RivalLines.tsx';
import { RunLine } from '../../../features/hours/honest/RunLine.tsx';
import { Slices } from '../../../features/hours/honest/Slices.tsx';
import { Tenths } from '../../../features/hours/honest/Tenths.tsx';
import styles from '../../../features/hours/hours-sheets.module.css';
import { request } from '../../../graphql/request.ts';
import { groupThousands } from '../../../lib/figures/hours.ts';
import { useViewer } from '../../../lib/use-viewer.ts';

const notes = [
  'At the start of each month the model is fitted on what was known then, predicts the month’s jobs for the place as it was planned and for who did them, and is held against the clock.',
  'Pinball loss: what a stated quantile cost. CRPS: what the whole forecast cost. Both in hours, and smaller is better.',
  'PIT: where the clock came out in a forecast, from its shortest tenth to its longest. Of a plain rule the forecast is its own past: a job that took just as long as past ones is spread evenly over their tenths.',
  'What was handed over unfinished, and what a person left out, is not scored.',
];
const LOOK_EVERY_MS = 1500;

/** Are our estimates honest? The model on the shop's own past, month by month, beside five plain rules. */
export default function HonestPage() {
  const viewer = useViewer();
  const honesty = useQuery({
    queryKey: ['hours', 'honest'],
    queryFn: () => request(HonestyDocument),
    enabled: viewer.data !== undefined,
    refetchInterval: ({ state }) => {
      const run = state.data?.hoursHonesty.run;
      const soon = run && new Date(String(run.dueAt)).getTime() < Date.now() + 60_000;
      return run && run.state !== 'failed' && soon ? LOOK_EVERY_MS : false;
    },
  });
  const problem = viewer.error ?? honesty.error;
  const shop = viewer.data?.shop;
  const found = honesty.data?.hoursHonesty;
  const newest = found?.newest ?? null;
  /** What goes on is said first; what could be asked for comes last. */
  const runsOrFailed = found?.run ? found.run.state !== 'waiting' : false;
  const manages = viewer.data?.person.roles.includes('manager') === true;
  return (
    <Sheet
      here="hours"
      viewer={viewer.data ? viewer.data.person : null}
      title="Are our estimates honest?"
      notes={notes}
      titleBlock={{
        what: 'Rolling back-test of the hours model',
        cells: [
          { label: 'Shop', value: shop?.name ?? '' },
          { label: 'Back-test', value: newest ? `No. ${newest.number}` : '', figures: true },
          { label: 'Model', value: newest ? `No. ${newest.modelNumber}` : '', figures: true },
          {
            label: 'Computed',
            value:
              newest && shop ? (
                <Day at={String(newest.computedAt)} timeZone={shop.timeZone} time />
              ) : (
                ''
              ),
            span: 'half',
          },
          {
            label: 'Jobs predicted',
            value: newest
              ? `${groupThousands(String(newest.score.items))} of ${groupThousands(String(newest.history))}`
              : '',
            figures: true,
            span: 'half',
          },
        ],
      }}
    >
      {problem ? (
        <ErrorNote
          head="No back-test to show"
          action={<Button onClick={() => void honesty.refetch()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : found && shop && viewer.data ? (
        <div className={styles.sheet}>
          <HoursSheets here="honest" roles={viewer.data.person.roles} />
          {runsOrFailed ? (
            <RunLine honesty={found} timeZone={shop.timeZone} mayAsk={manages} />
          ) : null}
          {newest === null ? (
            <Empty draws="curve">
              No back-test was computed yet: the first follows the next fit by itself.
            </Empty>
          ) : newest.tooLittle ? (
            <Empty draws="curve">{newest.tooLittle}</Empty>
          ) : (
            <Shown backtest={newest} />
          )}
          {manages && newest && !newest.tooLittle ? <ByMechanic number={newest.number} /> : null}
          {runsOrFailed ? null : (
            <RunLine honesty={found} timeZone={shop.timeZone} mayAsk={manages} />
          )}
        </div>
      ) : (
        <Loading>Looking back</Loading>
      )}
    </Sheet>
  );
}

function Shown({ backtest: { score, months, byTask, byModel } }: { backtest: Backtest }) {
  return (
    <>
      <section className={styles.part} aria-labelledby="verdict">
        <h2 id="verdict" className="spoken">
          Verdict
        </h2>
        <p className={styles.said}>{score.verdict}</p>
        <p className={styles.plain}>{score.coverage?.sentence}</p>
      </section>
      <div className={honest.drawn}>
        <CoverageMonths months={months} />
        <Tenths score={score} />
      </div>
      <section className={styles.part} aria-labelledby="rules">
        <h2 id="rules" className="spoken">
          Beside plain rules
        </h2>
        <RivalLines score={score} />
        <p className={styles.second}>
          On all {score.items} jobs the model’s P50 cost {score.loss.p50.toFixed(3)} h, its P80{' '}
          {score.loss.p80.toFixed(3)} h, its P90 {score.loss.p90.toFixed(3)} h a job; its CRPS is{' '}
          {score.crps?.toFixed(3)} h. Who is better is judged by the P80: the whole 95 % interval of
          the difference has to lie on one side.
        </p>
      </section>
      <div className={honest.groups}>
        <Slices what="Task" slices={byTask} />
        <Slices what="Model" slices={byModel} />
      </div>
    </>
  );
}

/** For the manager alone: the API gives it to nobody else. */
function ByMechanic({ number }: { number: number }) {
  const { data, error } = useQuery({
    queryKey: ['hours', 'honest', 'mechanics', number],
    queryFn: () => request(ByMechanicDocument),
  });
  if (error) return <ErrorNote head="No mechanics to show">{error.message}</ErrorNote>;
  const found = data?.hoursByMechanic;
  if (found?.__typename !== 'BacktestByMechanic' || found.slices.length === 0) return null;
  return (
    <section className={styles.part} aria-labelledby="mechanics">
      <h2 id="mechanics">By mechanic, for you alone</h2>
      <p className={styles.plain}>
        For planning, not a mark: it says how well hours are foreseen for somebody, not how well
        they work.
      </p>
      <Slices what="Mechanic" slices={found.slices} />
    </section>
  );
}
