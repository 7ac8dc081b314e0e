import { counters, formatHours, hundredths } from '@fairlead/airworthiness';
import { sayDay, sayMinute } from '../given.ts';
import type { LeftInoperative } from '../records/queries.ts';
import { countsInWords } from './counts.ts';
import type { DirectiveLine, DirectiveRow } from './directives/directives-of.ts';
import type { DueLine } from './due-line.ts';
import { type DueRow, dateOf, lastOf } from './due-terms.ts';
import type { PartTime } from './fitted-parts.ts';

export interface StatusRow {
  what: string;
  /** How it stands, in words. */
  status: string;
  last: string;
  next: string;
}

export const hours = (value: number | null | undefined) =>
  value === null || value === undefined ? null : `${formatHours(hundredths(value))} h`;
export const joined = (...parts: (string | null | undefined | false)[]) =>
  parts.filter((part) => part).join(', ');

const stateWords = {
  ok: 'current',
  due_soon: 'current, due soon',
  due: 'due now',
  within_allowance: 'past due, on the way to the inspection',
  overdue: 'overdue',
} as const;

/** What the rows of a sheet are written from. */
export interface StatusFacts {
  /** Time in service of the aircraft, hundredths of an hour. */
  tis: number | null;
  parts: ReadonlyMap<string, PartTime>;
  directives: ReadonlyMap<string, DirectiveRow>;
}

export const nameOf = (
  { title, number, revision, component }: DueRow,
  directive: DirectiveRow | undefined,
) =>
  joined(
    title,
    number && `No. ${number}`,
    // 91.417(a)(2)(v) asks for the revision date.
    revision && `revision ${revision}${directive ? ` of ${sayDay(directive.revisedOn)}` : ''}`,
    !revision && directive && `of ${sayDay(directive.revisedOn)}`,
    component && `${component.title}, serial ${component.serial}`,
  );

/** When, at what time, and how long ago in hours; of a part by its own. */
function lastWords(row: DueRow, { tis, parts }: StatusFacts): string {
  const last = lastOf(row);
  if (!last) return 'not entered here';
  const own = row.component && last.partHundredths !== null;
  const [now, then] = own
    ? [parts.get(row.component?.id ?? '')?.tisHundredths ?? null, last.partHundredths]
    : [tis, last.tisHundredths];
  return joined(
    sayDay(last.doneOn),
    hours(last.tisHundredths),
    ...countsInWords(last),
    // The time since the last overhaul or inspection is asked for (iii, iv).
    now !== null && then !== null && `${hours(Math.max(0, now - then))} since`,
    last.method,
    row.kind === 'directive' && `by ${last.by.name}`,
  );
}

/** Something that falls due. */
export function dueRow({ row, due, problem, projected }: DueLine, facts: StatusFacts): StatusRow {
  const point = due?.due;
  const done = row.rule === 'once' && lastOf(row) !== null;
  return {
    what: nameOf(row, facts.directives.get(row.directiveId ?? '')),
    status: done ? 'complied with, asked once' : due ? stateWords[due.state] : (problem ?? ''),
    last: lastWords(row, facts),
    next: done
      ? 'none'
      : joined(
          point?.date !== undefined && sayDay(dateOf(point.date)),
          hours(point?.tis),
          due?.remaining.hours !== undefined && leftWords(due.remaining.hours),
          ...counters.flatMap((counter) => countLeft(due, counter)),
          projected?.usual !== null &&
            projected !== null &&
            `about ${sayDay(dateOf(projected.usual))}`,
        ),
  };
}

const countLeft = (due: DueLine['due'], counter: (typeof counters)[number]): string[] => {
  const [point, left] = [due?.due[counter], due?.remaining[counter]];
  if (point === undefined || left === undefined) return [];
  return [`${point} ${counter}`, left < 0 ? `${-left} past due` : `${left} left`];
};
const leftWords = (left: number) => (left < 0 ? `${hours(-left)} past due` : `${hours(left)} left`);

/** Something that falls due no more: its repeat was ended by what was done, or it is not asked here any more. */
export function endedRow(row: DueRow, facts: StatusFacts): StatusRow {
  const ending = row.events.find(({ kind }) => kind !== 'complied');
  const terminated = ending?.kind === 'terminated';
  return {
    what: nameOf(row, facts.directives.get(row.directiveId ?? '')),
    status: terminated ? 'complied with, terminating action' : 'not asked here any more',
    last: terminated
      ? lastWords(row, facts)
      : joined(ending && sayDay(ending.doneOn), ending?.method, ending && `by ${ending.by.name}`),
    next: 'none',
  };
}

/** A directive by which nothing falls due: it was found not to apply, or nobody decided yet. */
export function undueRow({ directive, part, decision, because }: DirectiveLine): StatusRow {
  const { subject, number, revision, revisedOn } = directive;
  return {
    what: joined(
      subject,
      `No. ${number}`,
      `${revision && `revision ${revision} `}of ${sayDay(revisedOn)}`,
      part && `${part.title}, serial ${part.serial}`,
    ),
    status: decision
      ? `${directive.kind === 'directive' ? 'does not apply' : 'not chosen'}: ${decision.reason}`
      : `not decided. ${because}`,
    last: decision ? joined(sayDay(decision.at), `decided by ${decision.by.name}`) : '',
    next: decision ? 'none' : 'a person has to decide',
  };
}

/** The form of a major repair or alteration, and whether it went to the authority (14 CFR 43.9(d), part 43 Appendix B). */
export interface FormOwed {
  words: string;
  runsFrom: Date;
  dueAt: Date;
  order: { number: number };
  done: { at: Date; words: string; by: { name: string } } | null;
}

export const formRow = ({ words, runsFrom, dueAt, order, done }: FormOwed): StatusRow => ({
  what: `${words}, order ${order.number}`,
  status: done ? `form: ${done.words}` : 'form not sent yet',
  last: joined(
    `approved ${sayDay(runsFrom)}`,
    done && `sent ${sayDay(done.at)} by ${done.by.name}`,
  ),
  next: done ? 'none' : `to the authority by ${sayMinute(dueAt)}`,
});

/** Equipment that stays inoperative until its finding is corrected. */
export const inoperativeRow = (left: LeftInoperative): StatusRow => ({
  what: `${left.equipment}, finding ${left.number} of order ${left.orderNumber}`,
  status: left.line,
  last: joined(sayDay(left.at), `found by ${left.by}`, left.capacity),
  next: 'until it is corrected',
});
