import { formatHours, hundredths } from '@fairlead/airworthiness';
import type { DueLine, DueList } from './due-list.ts';
import { dateOf, lastOf } from './due-terms.ts';

export interface PartTime {
  title: string;
  kind: string;
  partNumber: string;
  serial: string;
  tisHundredths: number | null;
}

export interface StatusRow {
  what: string;
  /** How it stands, in words. */
  status: string;
  last: string;
  next: string;
}

export interface StatusSection {
  /** 14 CFR 91.417(a)(2)(i) to (vi). */
  paragraph: string;
  title: string;
  rows: StatusRow[];
  /** What is said where nothing is kept, or beside what is. */
  note: string;
}

const hours = (value: number | null | undefined) =>
  value === null || value === undefined ? null : `${formatHours(hundredths(value))} h`;
const day = (date: Date) => date.toISOString().slice(0, 10);
const joined = (...parts: (string | null | undefined | false)[]) =>
  parts.filter((part) => part).join(', ');

const stateWords = {
  ok: 'current',
  due_soon: 'current, due soon',
  due: 'due now',
  within_allowance: 'past due, on the way to the inspection',
  overdue: 'overdue',
} as const;

function rowOf({ row, due, problem, projected }: DueLine, tis: number | null): StatusRow {
  const last = lastOf(row);
  const since = due?.due;
  return {
    what: joined(
      row.title,
      row.number && `No. ${row.number}`,
      row.revision && `revision ${row.revision}`,
      row.component && `${row.component.title}, serial ${row.component.serial}`,
    ),
    status: due ? stateWords[due.state] : (problem ?? ''),
    last: last
      ? joined(
          day(last.doneOn),
          hours(last.tisHundredths),
          // The time since the last overhaul or inspection is asked for (iii, iv).
          tis !== null &&
            last.tisHundredths !== null &&
            `${hours(Math.max(0, tis - last.tisHundredths))} since`,
          last.method,
        )
      : 'not entered here',
    next: joined(
      since?.date !== undefined && day(dateOf(since.date)),
      hours(since?.tis),
      due?.remaining.hours !== undefined && `${hours(due.remaining.hours)} left`,
      projected?.usual !== null && projected !== null && `about ${day(dateOf(projected.usual))}`,
    ),
  };
}

/**
 * The status of an aircraft's records, item by item of 14 CFR 91.417(a)(2): total time, life-limited parts, time since
 * overhaul, inspections, directives, and what is kept elsewhere. What is not kept here is said to be so.
 */
export function statusSheet(
  { registration, tisHundredths, lines }: DueList,
  parts: readonly PartTime[],
): StatusSection[] {
  const of = (...kinds: DueLine['row']['kind'][]) =>
    lines.filter(({ row }) => kinds.includes(row.kind)).map((line) => rowOf(line, tisHundredths));
  const main = parts.filter(({ kind }) => ['engine', 'propeller', 'rotor'].includes(kind));
  const section = (
    item: string,
    title: string,
    rows: StatusRow[],
    note: string,
  ): StatusSection => ({
    paragraph: `14 CFR 91.417(a)(2)(${item})`,
    title,
    rows,
    note: rows.length === 0 ? `None is entered here: ${note}` : note,
  });
  return [
    section(
      'i',
      'Total time in service',
      [
        {
          what: `Airframe, ${registration}`,
          status: hours(tisHundredths) ?? 'no meter was read',
          ...{ last: '', next: '' },
        },
        ...main.map(({ title, serial, partNumber, tisHundredths: time }) => ({
          what: joined(title, `part ${partNumber}`, `serial ${serial}`),
          status: hours(time) ?? 'not known here: it was fitted elsewhere before',
          ...{ last: '', next: '' },
        })),
      ],
      'the airframe, each engine, each propeller and each rotor.',
    ),
    section(
      'ii',
      'Life-limited parts',
      of('limit'),
      'see the lists of the type certificate and of the maker for which parts have a limit.',
    ),
    section(
      'iii',
      'Time since overhaul',
      of('overhaul'),
      'of items that are required to be overhauled on a time basis.',
    ),
    section(
      'iv',
      'Inspections',
      of('inspection'),
      'with the time since the last of the programme under which the aircraft is maintained.',
    ),
    section(
      'v',
      'Airworthiness directives',
      of('directive'),
      'for each its number and revision, how it was complied with, and when it is due again. Which directives apply is for the owner and the inspector to find: look them up at the authority.',
    ),
    {
      paragraph: '14 CFR 91.417(a)(2)(vi)',
      title: 'Forms of major alterations',
      rows: [],
      note: 'Kept with the paper records: copies of the forms of 43.9(d) are not kept here.',
    },
  ];
}
