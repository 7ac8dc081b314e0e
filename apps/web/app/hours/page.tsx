'use client';

import { useQuery } from '@tanstack/react-query';
import { Suspense } from 'react';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { HoursSheets } from '../../features/hours/HoursSheets.tsx';
import { HowHonest } from '../../features/hours/HowHonest.tsx';
import styles from '../../features/hours/hours.module.css';
import { HoursDocument } from '../../features/hours/hours-document.ts';
import { ImportHistory } from '../../features/hours/ImportHistory.tsx';
import { Imports, JobsByTask } from '../../features/hours/PastJobs.tsx';
import { request } from '../../graphql/request.ts';
import { groupThousands } from '../../lib/figures/hours.ts';
import { useViewer } from '../../lib/use-viewer.ts';

const notes = [
  'An estimate is a range: one in ten comes out under P10, eight in ten under P80, nine in ten under P90.',
  'Hours are hands-on hours, all people added, waiting left out.',
  'What is clocked here is what the next quote is made from.',
];

const jobsIn = (tasks: readonly { jobs: number }[]) =>
  groupThousands(String(tasks.reduce((sum, { jobs }) => sum + jobs, 0)));

/** How honest our hours are, and what they stand on. */
export default function HoursPage() {
  const viewer = useViewer();
  const hours = useQuery({
    queryKey: ['hours'],
    queryFn: () => request(HoursDocument),
    enabled: viewer.data !== undefined,
  });
  const problem = viewer.error ?? hours.error;
  const shop = viewer.data?.shop;
  const found = hours.data?.hindsight;
  return (
    <Sheet
      here="hours"
      viewer={viewer.data ? viewer.data.person : null}
      title="Hours"
      notes={notes}
      titleBlock={{
        what: 'Hours quoted against hours clocked',
        cells: [
          { label: 'Shop', value: shop?.name ?? '', span: 'half' },
          {
            label: 'Past jobs',
            value: found ? jobsIn(found.byTask) : '',
            figures: true,
            span: 'half',
          },
        ],
      }}
    >
      {problem ? (
        <ErrorNote
          head="No hours to show"
          action={<Button onClick={() => void hours.refetch()}>Ask again</Button>}
        >
          {problem.message}
        </ErrorNote>
      ) : found && shop ? (
        <div className={styles.sections}>
          <HoursSheets here="quoted" roles={viewer.data?.person.roles ?? []} />
          <section aria-labelledby="judged">
            <h2 id="judged">How honest we are</h2>
            <Suspense>
              <HowHonest timeZone={shop.timeZone} />
            </Suspense>
          </section>
          <section aria-labelledby="jobs">
            <h2 id="jobs">What the estimates stand on</h2>
            <JobsByTask tasks={found.byTask} />
          </section>
          <section aria-labelledby="imports">
            <h2 id="imports">Imported history</h2>
            <ImportHistory mayImport={viewer.data?.person.roles.includes('manager') === true} />
            <Imports imports={found.imports} timeZone={shop.timeZone} />
          </section>
        </div>
      ) : (
        <Loading>Adding up the hours</Loading>
      )}
    </Sheet>
  );
}
