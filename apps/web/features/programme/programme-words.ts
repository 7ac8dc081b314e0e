import type { DueKind, DueRule, DueState } from '../../graphql/generated/graphql.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
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
  recurring: 'every so many hours or months',
  life_limit: 'a life, from new',
  once: 'once, not later than',
};

const hours = (hundredths: number) => `${(hundredths / 100).toFixed(1)} h`;

/** When it is due: by day, by hours, or both. */
export const dueWords = ({
  dueOn,
  dueAtHundredths,
}: Pick<DueLine, 'dueOn' | 'dueAtHundredths'>): string =>
  [
    ...(dueOn == null ? [] : [calendarDateText(dueOn)]),
    ...(dueAtHundredths == null ? [] : [hours(dueAtHundredths)]),
  ].join(', ');

/** What is left, signs kept. */
export const leftWords = ({
  remainingDays,
  remainingHundredths,
}: Pick<DueLine, 'remainingDays' | 'remainingHundredths'>): string =>
  [
    ...(remainingDays == null ? [] : [`${remainingDays} d`]),
    ...(remainingHundredths == null ? [] : [hours(remainingHundredths)]),
  ]
    .join(', ')
    .replaceAll('-', '\u2212');

/** When the hours will have been flown, with its range; empty where too little is known. */
export function projectionWords({ projectedOn, projectedFrom, projectedTo }: DueLine): string {
  if (projectedOn == null) return '';
  const range =
    projectedFrom == null
      ? ''
      : ` (${calendarDateText(projectedFrom)} to ${projectedTo == null ? 'later' : calendarDateText(projectedTo)})`;
  return `hours flown about ${calendarDateText(projectedOn)}${range}`;
}
