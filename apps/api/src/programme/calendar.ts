import { counters, formatHours, hundredths, writeDay } from '@fairlead/airworthiness';
import ical, { ICalEventTransparency } from 'ical-generator';
import type { DueLine } from './due-line.ts';
import type { DueList } from './due-list.ts';
import { dateOf } from './due-terms.ts';

const CAUTION =
  'Due dates are aids; the owner stays responsible. The current manual, its limitations and the directives govern.';

/** The day on which something stands in a calendar: by its date, or by hours as the aircraft flies in its busiest time. */
export function calendarDay({ due, projected }: DueLine): { day: number; byUse: boolean } | null {
  const date = due?.due.date;
  const early = projected?.earliest ?? undefined;
  if (date !== undefined && (early === undefined || date <= early))
    return { day: date, byUse: false };
  return early === undefined ? null : { day: early, byUse: true };
}

/** What falls due as a calendar (RFC 5545): one all-day event for each item that has a day. */
export function calendarOf(name: string, lists: readonly DueList[], now: Date): string {
  const calendar = ical({ name, prodId: { company: 'Fairlead', product: 'due', language: 'EN' } });
  for (const { registration, lines } of lists)
    for (const line of lines) {
      const when = calendarDay(line);
      if (!when || !line.due) continue;
      const { due, row } = line;
      const start = dateOf(when.day);
      calendar.createEvent({
        id: `due-${row.id}@fairlead`,
        stamp: now,
        start,
        end: dateOf(when.day + 1),
        allDay: true,
        timezone: 'UTC',
        transparency: ICalEventTransparency.TRANSPARENT,
        summary: `${registration}: ${row.title}${when.byUse ? ' (about)' : ''}`,
        description: [
          due.because,
          ...(when.byUse
            ? [
                `Due at ${pointWords(due)}. This is the day if it flies as in its busiest weeks; as usual ${line.projected?.usual === null || line.projected === null ? 'unknown' : writeDay(line.projected.usual)}.`,
              ]
            : []),
          CAUTION,
        ].join('\n'),
      });
    }
  return calendar.toString();
}

/** By hours and by what is counted. */
const pointWords = ({ due }: NonNullable<DueLine['due']>): string =>
  [
    ...(due.tis === undefined ? [] : [`${formatHours(hundredths(due.tis))} h`]),
    ...counters.flatMap((counter) =>
      due[counter] === undefined ? [] : `${due[counter]} ${counter}`,
    ),
  ].join(' or ');
