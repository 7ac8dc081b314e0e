/** What a row of due items says of its terms and its last compliance, in and out. */
export const termColumns = [
  'title',
  'kind',
  'number',
  'revision',
  'source',
  'rule',
  'every_hours',
  'every_months',
  'every_calendar_months',
  'every_days',
  'every_cycles',
  'every_landings',
  'every_starts',
  'limit_hours',
  'limit_cycles',
  'limit_landings',
  'limit_starts',
  'limit_date',
  'whichever',
  'part_number',
  'part_serial',
  'task',
  'last_on',
  'last_at_hours',
  'last_at_cycles',
  'last_at_landings',
  'last_at_starts',
  'last_method',
] as const;
export type TermColumn = (typeof termColumns)[number];

/** Without these no row means anything. */
export const neededColumns = ['title', 'kind', 'source', 'rule'] as const;

/** What is reckoned goes out only; a file that holds it is taken in without it. */
export const reckonedColumns = [
  'state',
  'due_on',
  'due_at_hours',
  'due_at_cycles',
  'due_at_landings',
  'due_at_starts',
  'left_days',
  'left_hours',
  'left_cycles',
  'left_landings',
  'left_starts',
  'because',
] as const;
export type ReckonedColumn = (typeof reckonedColumns)[number];
