import { calendarDateText, dayText } from '../../../lib/figures/dates.ts';
import type { OutsideJob } from './outside-job.ts';

/** Where it is and when it comes back, in one line. */
export function outsideWords(job: OutsideJob, timeZone: string): string {
  if (job.returnedAt !== null)
    return [
      `back ${dayText(job.returnedAt, timeZone)}`,
      job.withoutTag === null
        ? job.tag === ''
          ? 'with its release tag'
          : `release tag ${job.tag}`
        : `without a release tag, ${job.returnedBy?.name ?? 'somebody'}: “${job.withoutTag}”`,
    ].join(', ');
  const out = `out since ${dayText(job.sentAt, timeZone)}`;
  if (job.promisedOn === null) return `${out}, nobody can say until when`;
  return `${out}, ${job.overdue ? 'overdue: ' : ''}promised for ${calendarDateText(job.promisedOn)}${job.promisedBy === null || job.promisedBy === job.vendor ? '' : ` by ${job.promisedBy}`}`;
}

/** Which piece it is, where it has numbers. */
export const pieceWords = ({ partNumber, serial }: OutsideJob): string =>
  [partNumber === '' ? '' : `part ${partNumber}`, serial === '' ? '' : `serial ${serial}`]
    .filter(Boolean)
    .join(', ');
