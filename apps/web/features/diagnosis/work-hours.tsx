'use client';

import { useQuery } from '@tanstack/react-query';
import { ButtonLink } from '../../components/Button.tsx';
import { Dimension } from '../../components/Dimension.tsx';
import { request } from '../../graphql/request.ts';
import styles from './diagnosis.module.css';
import { WorkHoursDocument } from './documents.ts';
import type { CauseShown } from './shown.ts';

/** The work that a cause leads to: the shop's own task for it, how long it takes in its place, and the way to price it. */
export function WorkHours({
  cause,
  aircraftId,
  findingId,
  prices,
}: {
  cause: CauseShown;
  aircraftId: string;
  findingId: string;
  /** Whether the reader prices work. */
  prices: boolean;
}) {
  const [task] = cause.tasks;
  const hours = useQuery({
    queryKey: ['workHours', task?.id, aircraftId],
    enabled: task !== undefined,
    staleTime: 60_000,
    queryFn: async () =>
      (await request(WorkHoursDocument, { taskId: task?.id ?? '', aircraftId })).estimateTask,
  });
  if (task === undefined)
    return (
      <p>
        <b>Work:</b> {cause.workTitle}. The shop has no task for it yet.
      </p>
    );
  const price = `/desk/quotes/new?finding=${encodeURIComponent(findingId)}&task=${encodeURIComponent(task.id)}`;
  return (
    <div className={styles.work}>
      <p>
        <b>Work:</b> {task.title}
      </p>
      {hours.data?.__typename === 'Estimate' ? (
        <Dimension estimate={hours.data} unit="h" />
      ) : (
        <p className={styles.second}>
          {hours.data?.__typename === 'Refusal'
            ? hours.data.message
            : (hours.error?.message ?? 'Asking how long it takes')}
        </p>
      )}
      {prices ? (
        <div>
          <ButtonLink href={price}>Price this work</ButtonLink>
        </div>
      ) : (
        <p className={styles.second}>The desk prices it.</p>
      )}
    </div>
  );
}
