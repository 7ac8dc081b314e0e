import { formatHours, hundredths } from '@fairlead/airworthiness';
import { sayDay } from '../../given.ts';
import { type CountsUnder, countsFrom, countsInWords } from '../counts.ts';
import type { DirectiveRow } from './directives-of.ts';

type Terms = Pick<
  DirectiveRow,
  | 'rule'
  | 'effectiveOn'
  | 'whicheverLast'
  | 'withinHundredths'
  | 'withinDays'
  | 'limitHundredths'
  | 'limitDate'
  | 'everyHundredths'
  | 'everyMonths'
  | 'everyCalendarMonths'
  | 'everyDays'
> &
  CountsUnder<'within'> &
  CountsUnder<'limit'> &
  CountsUnder<'every'>;

const hours = (value: number) => `${formatHours(hundredths(value))} h`;

/** By when and how often, as a sentence would have it. */
export function termsInWords(terms: Terms): string {
  const which = terms.whicheverLast ? 'whichever comes last' : 'whichever comes first';
  const joined = (words: readonly string[]) =>
    words.length > 1 ? `${words.join(' or ')}, ${which}` : (words[0] ?? '');
  const some = (value: number | null, say: (value: number) => string) =>
    value === null ? [] : [say(value)];
  const within = [
    ...some(terms.withinHundredths, hours),
    ...countsInWords(countsFrom('within', terms)),
    ...some(terms.withinDays, (n) => `${n} days`),
  ];
  const by = [
    ...some(terms.limitHundredths, hours),
    ...countsInWords(countsFrom('limit', terms)),
    ...(terms.limitDate ? [sayDay(terms.limitDate)] : []),
  ];
  const every = [
    ...some(terms.everyHundredths, hours),
    ...countsInWords(countsFrom('every', terms)),
    ...some(terms.everyMonths, (n) => `${n} months`),
    ...some(terms.everyCalendarMonths, (n) => `${n} calendar months`),
    ...some(terms.everyDays, (n) => `${n} days`),
  ];
  if (terms.rule === 'life_limit') return `A life of ${joined(by)}`;
  const first = [
    ...(within.length > 0 ? [`within ${joined(within)} after ${sayDay(terms.effectiveOn)}`] : []),
    ...(by.length > 0 ? [`by ${joined(by)}`] : []),
  ].join(', and ');
  if (terms.rule === 'once') return `Once, ${first}`;
  return `${first === '' ? 'Every' : `First ${first}; then every`} ${joined(every)}`;
}
