import { formatHours, hundredths } from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { type Cell, dayCell, numberCell, textCell } from '../../csv.ts';
import type { DueLine } from '../due-line.ts';
import type { DueList } from '../due-list.ts';
import { dateOf, lastOf } from '../due-terms.ts';
import {
  type ReckonedColumn,
  reckonedColumns,
  type TermColumn,
  termColumns,
} from './due-columns.ts';

export const dueHead: readonly string[] = [...termColumns, ...reckonedColumns];

const hours = (value: number | null | undefined): Cell =>
  value === null || value === undefined
    ? null
    : numberCell(
        value < 0 ? `-${formatHours(hundredths(-value))}` : formatHours(hundredths(value)),
      );
const count = (value: number | null | undefined): Cell =>
  value === null || value === undefined ? null : numberCell(String(value));

function cellsOf(
  { row, due, problem }: DueLine,
  tasks: ReadonlyMap<string, string>,
): Record<TermColumn | ReckonedColumn, Cell> {
  const last = lastOf(row);
  return {
    title: textCell(row.title),
    kind: textCell(row.kind),
    number: textCell(row.number),
    revision: textCell(row.revision),
    source: textCell(row.source),
    rule: textCell(row.rule),
    every_hours: hours(row.everyHundredths),
    every_months: count(row.everyMonths),
    every_calendar_months: count(row.everyCalendarMonths),
    every_days: count(row.everyDays),
    every_cycles: count(row.everyCycles),
    every_landings: count(row.everyLandings),
    every_starts: count(row.everyStarts),
    limit_hours: hours(row.limitHundredths),
    limit_cycles: count(row.limitCycles),
    limit_landings: count(row.limitLandings),
    limit_starts: count(row.limitStarts),
    limit_date: dayCell(row.limitDate),
    whichever: textCell(row.whicheverLast ? 'last' : 'first'),
    part_number: textCell(row.component?.partNumber ?? null),
    part_serial: textCell(row.component?.serial ?? null),
    task: textCell(row.taskId && (tasks.get(row.taskId) ?? null)),
    last_on: dayCell(last?.doneOn ?? null),
    last_at_hours: hours(last?.tisHundredths),
    last_at_cycles: count(last?.cycles),
    last_at_landings: count(last?.landings),
    last_at_starts: count(last?.starts),
    last_method: textCell(last?.method ?? null),
    state: textCell(due?.state ?? 'cannot be reckoned'),
    due_on: dayCell(due?.due.date === undefined ? null : dateOf(due.due.date)),
    due_at_hours: hours(due?.due.tis),
    due_at_cycles: count(due?.due.cycles),
    due_at_landings: count(due?.due.landings),
    due_at_starts: count(due?.due.starts),
    left_days: count(due?.remaining.days),
    left_hours: hours(due?.remaining.hours),
    left_cycles: count(due?.remaining.cycles),
    left_landings: count(due?.remaining.landings),
    left_starts: count(due?.remaining.starts),
    because: textCell(due?.because ?? problem),
  };
}

/** The due list of an aircraft as rows, most pressing first; what is typed in stands before what is reckoned. */
export async function dueRows(read: Tx, { lines }: DueList): Promise<Cell[][]> {
  const tasks = await read.task.findMany({
    where: { id: { in: lines.flatMap(({ row }) => row.taskId ?? []) } },
    select: { id: true, key: true },
  });
  const keys = new Map(tasks.map(({ id, key }) => [id, key]));
  return lines.map((line) => {
    const cells = cellsOf(line, keys);
    return [...termColumns, ...reckonedColumns].map((column) => cells[column]);
  });
}
