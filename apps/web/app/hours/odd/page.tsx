'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../../components/Button.tsx';
import { Empty, Loading } from '../../../components/Empty.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Sheet } from '../../../components/Sheet.tsx';
import { HoursSheets } from '../../../features/hours/HoursSheets.tsx';
import styles from '../../../features/hours/hours-sheets.module.css';
import { logScale } from '../../../features/hours/log-scale.ts';
import { DecidedTime, OddTime } from '../../../features/hours/odd/OddTime.tsx';
import odd from '../../../features/hours/odd/odd.module.css';
import { OddTimesDocument } from '../../../features/hours/odd/odd-document.ts';
import { request } from '../../../graphql/request.ts';
import { useViewer } from '../../../lib/use-viewer.ts';

const notes = [
  'The model proposes, a person decides; what was clocked, its cost and what was billed stay as they are.',
  'Expected is what the model makes of the same task, place, people and aircraft.',
  'Who decided what, when and why is never changed; a later decision stands above it.',
];

/** Times that the model cannot believe, for a person to decide about. */
export default function OddPage() {
  const viewer = useViewer();
  const times = useQuery({
    queryKey: ['hours', 'odd'],
    queryFn: () => request(OddTimesDocument),
    enabled: viewer.data !== undefined,
  });
  const answer = times.data?.oddTimes;
  const refused = answer?.__typename === 'Refusal' ? answer : undefined;
  const problem = viewer.error ?? times.error ?? refused;
  const found = answer?.__typename === 'OddTimes' ? answer : undefined;
  const shop = viewer.data?.shop;
  const tasks = times.data?.hindsight.byTask ?? [];
  const scale = logScale(
    (found?.proposed ?? []).flatMap(({ hours, proposal }) =>
      proposal ? [hours, proposal.p10, proposal.p90] : [hours],
    ),
  );
  return (
    <Sheet
      here="hours"
      viewer={viewer.data ? viewer.data.person : null}
      title="Times that look odd"
      notes={notes}
      titleBlock={{
        what: 'Clocked times that the model cannot believe',
        cells: [
          { label: 'Shop', value: shop?.name ?? '' },
          { label: 'To decide', value: found ? String(found.proposed.length) : '', figures: true },
          { label: 'Model', value: found?.model ? `No. ${found.model.number}` : '', figures: true },
        ],
      }}
    >
      {problem ? (
        <ErrorNote
          head="No times to show"
          action={<Button onClick={() => void times.refetch()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : found && shop && viewer.data ? (
        <div className={styles.sheet}>
          <HoursSheets here="odd" roles={viewer.data.person.roles} />
          <section className={styles.part} aria-labelledby="proposed">
            <h2 id="proposed">To decide</h2>
            <p className={odd.standing}>
              Until somebody decides, such a time counts less in what the model learns; it is never
              left out by itself.
            </p>
            {found.proposed.length === 0 ? (
              <Empty>
                {found.model
                  ? 'No time waits for a decision: all that was clocked can be believed, or is decided.'
                  : 'Nothing was fitted yet: odd times are found with the first fit.'}
              </Empty>
            ) : (
              <ul>
                {found.proposed.map((time) => (
                  <OddTime key={time.id} time={time} scale={scale} tasks={tasks} />
                ))}
              </ul>
            )}
          </section>
          {found.decided.length === 0 ? null : (
            <section className={styles.part} aria-labelledby="decided">
              <h2 id="decided">Decided</h2>
              <ul>
                {found.decided.map((time) => (
                  <DecidedTime key={time.id} time={time} tasks={tasks} timeZone={shop.timeZone} />
                ))}
              </ul>
            </section>
          )}
        </div>
      ) : (
        <Loading>Looking through the times</Loading>
      )}
    </Sheet>
  );
}
