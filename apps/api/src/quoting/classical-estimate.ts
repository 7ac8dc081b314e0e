import type { Tx } from '@fairlead/database';
import { type Estimate, classicalEstimate as fromJobs, hours } from '@fairlead/labour';
import { notFound, Refused } from '../errors.ts';

/** The textbook's answer: a task's own recorded times alone, without standard, shop or place. */
export async function classicalEstimate(read: Tx, taskId: string): Promise<Estimate> {
  const task = await read.task.findUnique({
    where: { id: taskId },
    select: { key: true, title: true },
  });
  if (!task) throw notFound('task');
  const rows = await read.$queryRaw<{ hours: number; censored: boolean }[]>`
    SELECT hours, censored FROM labour_history WHERE shop_id = current_shop() AND task = ${task.key}::text
    ORDER BY completed_on, hours`;
  const answer = fromJobs(rows.map((row) => ({ hours: hours(row.hours), censored: row.censored })));
  if (answer.kind === 'not-enough-history')
    throw new Refused(
      'NOT_ENOUGH_HISTORY',
      `"${task.title}" cannot be estimated. ${answer.sentence}`,
    );
  return answer;
}
