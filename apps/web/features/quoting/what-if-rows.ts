import { daysBetween } from '@fairlead/hangar';
import type { QuoteForecastQuery } from '../../graphql/generated/graphql.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { differenceText, quantityText, type Unit } from '../../lib/figures/quantity.ts';

export type Forecast = Extract<
  QuoteForecastQuery['quoteForecast'],
  { __typename: 'QuoteForecast' }
>;

export interface WhatIfRow {
  what: string;
  /** Empty for days. */
  unit: string;
  from: string;
  to: string;
  change: string;
}

/** Two forecasts side by side: price, hours, and the day by which it is ready in four cases of five. */
export function rowsOfWhatIf(from: Forecast, to: Forecast): WhatIfRow[] {
  const row = (what: string, unit: Unit, one: bigint | number, other: bigint | number) => ({
    what,
    unit,
    from: quantityText(one, unit),
    to: quantityText(other, unit),
    change: differenceText(one, other, unit),
  });
  const { currency } = from;
  return [
    row('Likely', currency, BigInt(from.likely), BigInt(to.likely)),
    row('Nine in ten under', currency, BigInt(from.high), BigInt(to.high)),
    row('Hours, likely', 'h', from.hours.p50, to.hours.p50),
    {
      what: 'Ready by, four in five',
      unit: '',
      from: dayWords(from.promise.p80),
      to: dayWords(to.promise.p80),
      change: daysWords(from.promise.p80, to.promise.p80),
    },
  ];
}

const dayWords = (day: string | null) => (day === null ? 'not known' : calendarDateText(day));

function daysWords(from: string | null, to: string | null): string {
  if (from === null || to === null) return from === to ? 'none' : 'not known';
  const days = daysBetween(from, to);
  if (days === 0) return 'none';
  return `${Math.abs(days)} ${Math.abs(days) === 1 ? 'day' : 'days'} ${days > 0 ? 'later' : 'sooner'}`;
}
