import type { DueKind, DueRule, DueState } from '../../graphql/generated/graphql.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { counters } from './count-fields.tsx';
import type { DueLine } from './programme-documents.ts';

export const stateWords: Record<DueState, string> = {
  ok: 'not yet',
  due_soon: 'due soon',
  due: 'due now',
  within_allowance: 'past due, on the way',
  overdue: 'overdue',
};

export const kindWords: Record<DueKind, string> = {
  inspection: 'inspection',
  directive: 'directive',
  bulletin: 'bulletin',
  limit: 'life limit',
  overhaul: 'overhaul',
};

export const ruleWords: Record<DueRule, string> = {
  hundred_hour: '100-hour, 14 CFR 91.409(b)',
  annual: 'annual, 14 CFR 91.409(a)',
  calendar_months: 'every so many calendar months',
  recurring: 'every so many hours, months, landings …',
  life_limit: 'a life, from new',
  once: 'once, not later than',
};

const hours = (hundredths: number) => `${(hundredths / 100).toFixed(1)} h`;

/** When it is due: by day, by hours, by what is counted, or several. */
export const dueWords = ({
  dueOn,
  dueAtHundredths,
  counts = [],
}: Pick<DueLine, 'dueOn' | 'dueAtHundredths'> & Partial<Pick<DueLine, 'counts'>>): string =>
  [
    ...(dueOn == null ? [] : [calendarDateText(dueOn)]),
    ...(dueAtHundredths == null ? [] : [hours(dueAtHundredths)]),
    ...counts.map(({ counter, dueAt }) => `${dueAt} ${counter}`),
  ].join(', ');

/** What is left, signs kept. */
export const leftWords = ({
  remainingDays,
  remainingHundredths,
  counts = [],
}: Pick<DueLine, 'remainingDays' | 'remainingHundredths'> &
  Partial<Pick<DueLine, 'counts'>>): string =>
  [
    ...(remainingDays == null ? [] : [`${remainingDays} d`]),
    ...(remainingHundredths == null ? [] : [hours(remainingHundredths)]),
    ...counts.map(({ counter, remaining }) => `${remaining} ${counter}`),
  ]
    .join(', ')
    .replaceAll('-', '\u2212');

/** When the hours will have been flown, or so much counted, with its range; empty where too little is known. */
export function projectionWords({
  projectedOn,
  projectedFrom,
  projectedTo,
  counts,
}: DueLine): string {
  if (projectedOn == null) return '';
  const range =
    projectedFrom == null
      ? ''
      : ` (${calendarDateText(projectedFrom)} to ${projectedTo == null ? 'later' : calendarDateText(projectedTo)})`;
  return `${counts.length === 0 ? 'hours flown' : 'reached'} about ${calendarDateText(projectedOn)}${range}`;
}

/** "5210 landings, 2310 starts"; what nobody counted is left out. */
export const countsWords = (counts: {
  cycles?: number | null;
  landings?: number | null;
  starts?: number | null;
}): string =>
  counters
    .flatMap((counter) => (counts[counter] == null ? [] : [`${counts[counter]} ${counter}`]))
    .join(', ');
