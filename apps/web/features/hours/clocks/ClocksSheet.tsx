'use client';

import { useQuery } from '@tanstack/react-query';
import { Button } from '../../../components/Button.tsx';
import { Empty, Loading } from '../../../components/Empty.tsx';
import { ErrorNote } from '../../../components/ErrorNote.tsx';
import { Sheet } from '../../../components/Sheet.tsx';
import { request } from '../../../graphql/request.ts';
import { useViewer } from '../../../lib/use-viewer.ts';
import { ForgottenClocksDocument } from '../../work/forgotten-documents.ts';
import { Practice } from '../../work/Practice.tsx';
import { HoursSheets } from '../HoursSheets.tsx';
import styles from '../hours-sheets.module.css';
import { LeftRunning } from './LeftRunning.tsx';

const notes = [
  'A clock looks left running when it went on past its person’s hours, ran twelve hours, or ran longer than 99 in 100 such pieces of work.',
  'It is asked about at the bench the next morning. The answer is one more event; what was recorded first stays.',
  'Hours under supervision are one stretch, billed once: they stand with both people.',
];

/** Clocks that look left running, and the hours as a record of practice. */
export function ClocksSheet() {
  const viewer = useViewer();
  const asked = useQuery({
    queryKey: ['forgotten'],
    queryFn: () => request(ForgottenClocksDocument),
    enabled: viewer.data !== undefined,
  });
  const answer = asked.data?.forgottenClocks;
  const problem =
    viewer.error ?? asked.error ?? (answer?.__typename === 'Refusal' ? answer : undefined);
  const clocks = answer?.__typename === 'ForgottenClocks' ? answer.clocks : undefined;
  const roles = viewer.data?.person.roles ?? [];
  const timeZone = viewer.data?.shop.timeZone ?? 'UTC';
  return (
    <Sheet
      here="hours"
      viewer={viewer.data?.person ?? null}
      title="Clocks"
      notes={notes}
      titleBlock={{
        what: 'Clocks left running, and hours of practice',
        cells: [
          { label: 'Shop', value: viewer.data?.shop.name ?? '' },
          { label: 'To be said', value: clocks?.length ?? '', figures: true },
        ],
      }}
    >
      {problem ? (
        <ErrorNote
          head="No clocks to show"
          action={<Button onClick={() => void asked.refetch()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : clocks === undefined ? (
        <Loading>Looking through the clocks</Loading>
      ) : (
        <div className={styles.sheet}>
          <HoursSheets here="clocks" roles={roles} />
          <section className={styles.part} aria-labelledby="left-running">
            <h2 id="left-running">Look left running</h2>
            {clocks.length === 0 ? (
              <Empty draws="list">No clock looks left running.</Empty>
            ) : (
              <ul>
                {clocks.map((clock) => (
                  <LeftRunning
                    key={clock.startId}
                    clock={clock}
                    timeZone={timeZone}
                    answers={roles.includes('manager')}
                  />
                ))}
              </ul>
            )}
          </section>
          {roles.some((role) => role === 'manager' || role === 'inspector') ? (
            <section className={styles.part} aria-labelledby="practice">
              <h2 id="practice">Hours of practice</h2>
              <Practice timeZone={timeZone} />
            </section>
          ) : null}
        </div>
      )}
    </Sheet>
  );
}
