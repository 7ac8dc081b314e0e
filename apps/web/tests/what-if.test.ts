import { expect, it } from 'vitest';
import { type Forecast, rowsOfWhatIf } from '../features/quoting/what-if-rows.ts';

const forecast = (over: { likely: string; p50: number; p80: string | null }): Forecast =>
  ({
    __typename: 'QuoteForecast',
    currency: 'USD',
    likely: over.likely,
    high: '300000',
    hours: { p50: over.p50 },
    promise: { p80: over.p80 },
  }) as unknown as Forecast;

it('the differences add up as they are printed', () => {
  const from = forecast({ likely: '210049', p50: 3.16, p80: '2031-05-06' });
  const rows = rowsOfWhatIf(from, forecast({ likely: '193951', p50: 4.58, p80: '2031-05-05' }));
  expect(rows.map(({ what, from: one, to, change }) => [what, one, to, change])).toEqual([
    ['Likely', '2,100', '1,940', '−160'],
    ['Nine in ten under', '3,000', '3,000', '+0'],
    ['Hours, likely', '3.2', '4.6', '+1.4'],
    ['Ready by, four in five', '6 May 2031', '5 May 2031', '1 day sooner'],
  ]);
});

it('a day that nobody can say is not a difference', () => {
  const known = forecast({ likely: '1', p50: 1, p80: '2031-05-06' });
  const open = forecast({ likely: '1', p50: 1, p80: null });
  expect(rowsOfWhatIf(known, open).at(-1)?.change).toBe('not known');
  expect(rowsOfWhatIf(open, open).at(-1)).toMatchObject({ from: 'not known', change: 'none' });
});
