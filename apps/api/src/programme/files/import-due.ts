import {
  counters,
  csvLines,
  hundredths,
  partCountAt,
  partTimeAt,
  type RefusedCell,
} from '@fairlead/airworthiness';
import { allow, type Context } from '../../context.ts';
import { notFound } from '../../errors.ts';
import { sayDay } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { shopToday } from '../../today.ts';
import { countHistoryOf, countsUnder, eachCount } from '../counts.ts';
import { dueListsOf } from '../due-list.ts';
import { countersAsked, historyOf } from '../due-terms.ts';
import { neededColumns, reckonedColumns, termColumns } from './due-columns.ts';
import { type GivenDueRow, givenDueRow } from './given-due-row.ts';
import { type KnownThere, knownThere, partKey } from './known-there.ts';

export interface DueImported {
  added: number;
  refused: readonly RefusedCell[];
}

/** Takes a file of due items for one aircraft: all of its rows, or none, each refused cell said with its line. */
export async function importDue(
  context: Context,
  { aircraftId, csv }: { aircraftId: string; csv: string },
): Promise<DueImported> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const { lines, refused: broken } = csvLines(csv, neededColumns, [
    ...termColumns.filter((column) => !(neededColumns as readonly string[]).includes(column)),
    ...reckonedColumns,
  ]);
  const refused = [...broken];
  const rows = lines.map((line) => givenDueRow(line, refused));
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'aircraft', aircraftId);
    const [list] = await dueListsOf(tx, aircraftId, today);
    if (!list) throw notFound('aircraft');
    const known = await knownThere(tx, list);
    // decide
    for (const row of rows) refused.push(...strangeThere(row, known, today));
    if (refused.length > 0)
      return { added: 0, refused: refused.toSorted((one, other) => one.line - other.line) };
    // save
    const at = context.now();
    for (const { line: _, part, task, last, ...terms } of rows) {
      const component = part ? (known.parts.get(partKey(part)) ?? null) : null;
      const { id: itemId } = await tx.dueItem.create({
        data: {
          ...{ ...terms, aircraftId, componentId: component?.id ?? null },
          ...{ taskId: known.tasks.get(task) ?? null, addedById: personId, addedAt: at },
        },
        select: { id: true },
      });
      if (!last) continue;
      const tis = last.tisHundredths;
      await tx.dueEvent.create({
        data: {
          ...{ ...last, itemId, kind: 'complied', at, byId: personId },
          partHundredths:
            component && tis !== null
              ? partTimeAt(historyOf(component), aircraftId, hundredths(tis))
              : null,
          ...countsUnder(
            'part',
            eachCount((counter) => {
              const then = last[counter];
              if (!component || then === null) return null;
              return partCountAt(countHistoryOf(component, counter), aircraftId, then);
            }),
          ),
        },
        select: { id: true },
      });
    }
    return { added: rows.length, refused: [] };
  });
}

/** What a row names that is not there, is there already, or cannot have been. */
function strangeThere(row: GivenDueRow, known: KnownThere, today: Date): RefusedCell[] {
  const refused: RefusedCell[] = [];
  const refuse = (column: string, value: string, problem: string, needed: string) =>
    refused.push({ line: row.line, column, value, problem, needed });
  const { part, task, last, title, number } = row;
  if (part && !known.parts.has(partKey(part)))
    refuse(
      'part_serial',
      `${part.number} ${part.serial}`,
      `is not fitted to ${known.registration}`,
      'a part that is fitted, by its number and serial number',
    );
  if (task !== '' && !known.tasks.has(task))
    refuse('task', task, 'is no task of the shop', 'the short name of a task, or nothing');
  if (known.items.has(`${title} ${number} ${part ? partKey(part) : ''}`.toLowerCase()))
    refuse('title', title, 'falls due on it already', 'something else, or its compliance alone');
  if (last && last.doneOn > today)
    refuse('last_on', sayDay(last.doneOn), 'lies in the future', `a day up to ${sayDay(today)}`);
  const tis = last?.tisHundredths ?? null;
  if (tis !== null && tis > (known.tisHundredths ?? 0))
    refuse(
      'last_at_hours',
      (tis / 100).toFixed(2),
      'is more than the aircraft has',
      known.tisHundredths === null
        ? 'a reading of its meter first'
        : `at most ${(known.tisHundredths / 100).toFixed(2)}`,
    );
  const asked = countersAsked(row);
  for (const counter of counters) {
    const [then, now] = [last?.[counter] ?? null, known.counts[counter]];
    if (then !== null && then > (now ?? -1))
      refuse(
        `last_at_${counter}`,
        `${then}`,
        'is more than the aircraft has',
        now === null ? 'a count, entered with a meter reading first' : `at most ${now}`,
      );
    if (last && then === null && asked.includes(counter))
      refuse(`last_at_${counter}`, '', 'is blank', 'the count at which it was done');
  }
  const byHours =
    row.rule === 'hundred_hour' || row.everyHundredths !== null || row.limitHundredths !== null;
  if (last && byHours && tis === null)
    refuse('last_at_hours', '', 'is blank', 'the time in service at which it was done');
  return refused;
}
