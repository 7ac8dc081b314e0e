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
  'limit_hours',
  'limit_date',
  'whichever',
  'part_number',
  'part_serial',
  'task',
  'last_on',
  'last_at_hours',
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
  'left_days',
  'left_hours',
  'because',
] as const;
export type ReckonedColumn = (typeof reckonedColumns)[number];
