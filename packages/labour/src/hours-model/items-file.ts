import { CsvError, parse } from 'csv-parse/sync';
import type { AccessConditions } from '../access-conditions.ts';
import type { Refusal } from '../history.ts';
import { readers } from '../history-cells.ts';
import { HISTORY_COLUMNS } from '../history-columns.ts';
import type { PlannedItem } from './coding.ts';

/** The columns of a file of items to estimate: those of a history that are known before the work. */
export const ITEM_COLUMNS = [
  'id',
  ...HISTORY_COLUMNS.filter((column) => !['completed_on', 'hours', 'censored'].includes(column)),
] as const;

/** An item of the file with the name it has there. */
export type NamedItem = PlannedItem & { readonly id: string };

export type ParsedItems = {
  readonly items: readonly NamedItem[];
  /** Everything that is wrong, in the order of the file; then there are no items to be used. */
  readonly refused: readonly Refusal[];
};

/** No day is read from a file of items; the readers want one all the same. */
const NO_DAY = '9999-12-31';

const whole = (problem: string, remedy: string, line = 1, column = '', value = ''): Refusal => ({
  line,
  column,
  value,
  problem,
  remedy,
});

type CsvLine = { readonly record: string[]; readonly info: { readonly lines: number } };

/**
 * Parse items: what is to be estimated, from a CSV file with the columns of ITEM_COLUMNS in any order, blank = not
 * known. Nothing is thrown for a bad file.
 *
 * @example parseItems('id,task\n').refused[0]?.column // 'jasc'
 */
export function parseItems(csvText: string): ParsedItems {
  let lines: CsvLine[];
  try {
    lines = parse(csvText, {
      bom: true,
      info: true,
      trim: true,
      skip_empty_lines: true,
      relax_column_count: true,
    }) as unknown as CsvLine[];
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return {
      items: [],
      refused: [whole(`is not CSV: ${error.message}`, 'Quote cells as CSV asks.')],
    };
  }
  const [head, ...body] = lines;
  const header = head?.record ?? [];
  const columns: readonly string[] = ITEM_COLUMNS;
  const refused: Refusal[] = [
    ...header.flatMap((name, index) =>
      !columns.includes(name)
        ? [whole('is not a known column', `Columns are ${columns.join(', ')}.`, 1, name, name)]
        : header.indexOf(name) === index
          ? []
          : [whole('is a column that comes twice', 'Keep one of the two.', 1, name, name)],
    ),
    ...columns.flatMap((name) =>
      header.includes(name)
        ? []
        : [
            whole(
              'is a missing column',
              `Add the column ${name}; its cells may stay blank.`,
              1,
              name,
            ),
          ],
    ),
  ];
  if (refused.length > 0) return { items: [], refused };
  const seen = new Set<string>();
  const items = body.map(({ record, info }) => readItem(record, header, info.lines, seen, refused));
  return { items: refused.length > 0 ? [] : items, refused };
}

function readItem(
  cells: readonly string[],
  header: readonly string[],
  line: number,
  seen: Set<string>,
  refused: Refusal[],
): NamedItem {
  const read = readers(NO_DAY);
  const refuse = (column: string, value: string, problem: string, remedy: string) => {
    refused.push({ line, column, value, problem, remedy });
    return undefined;
  };
  const written = (column: string) => cells[header.indexOf(column)] ?? '';
  const take = <Name extends Exclude<keyof typeof read, 'completed_on' | 'hours' | 'censored'>>(
    name: Name,
  ) => {
    const cell = written(name);
    if (cell === '') return undefined;
    const result = read[name](cell);
    if (!result.ok) return refuse(name, cell, result.problem, result.remedy);
    return result.value as Extract<ReturnType<(typeof read)[Name]>, { ok: true }>['value'];
  };
  if (cells.length > header.length) {
    refuse(
      '',
      cells.join(','),
      `has ${cells.length} cells`,
      `Write ${header.length}, as the header has.`,
    );
  }
  const id = written('id');
  if (id === '') refuse('id', id, 'is blank', 'Give each item a name of its own.');
  else if (seen.has(id)) refuse('id', id, 'comes twice', 'Give each item a name of its own.');
  seen.add(id);
  const task = take('task');
  if (written('task') === '') refuse('task', '', 'is blank', 'Name the task.');
  const place: AccessConditions = {
    clearanceMm: take('clearance_mm'),
    sight: take('sight'),
    posture: take('posture'),
    reach: take('reach'),
    swingDeg: take('swing_deg'),
    held: take('held'),
    lockedFasteners: take('locked_fasteners'),
  };
  return {
    id,
    task: task ?? '',
    jasc: take('jasc'),
    standardHours: take('standard_hours'),
    model: take('model'),
    registration: take('registration'),
    mechanics: take('mechanic') ?? [],
    place,
  };
}
