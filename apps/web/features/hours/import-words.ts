import { groupThousands } from '../../lib/figures/hours.ts';

export const figure = (count: number): string => groupThousands(String(count));
const rows = (count: number) => `${figure(count)} ${count === 1 ? 'row' : 'rows'}`;
export const jobs = (count: number): string => `${figure(count)} ${count === 1 ? 'job' : 'jobs'}`;
const are = (count: number) => (count === 1 ? 'is' : 'are');

/**
 * What reading a history file through brought, in one or two sentences.
 *
 * @example readSentence({ goodRows: 1, alreadyRows: 0, refusedRows: 3 }) // → '1 row is good, 3 are refused.'
 */
export function readSentence({
  goodRows,
  alreadyRows,
  refusedRows,
}: Record<'goodRows' | 'alreadyRows' | 'refusedRows', number>): string {
  const good = `${rows(goodRows)} ${are(goodRows)} good, ${figure(refusedRows)} ${are(refusedRows)} refused.`;
  if (alreadyRows === 0) return good;
  const there = 'in the shop’s history already.';
  if (alreadyRows < goodRows)
    return `${good} Of the good ones ${figure(alreadyRows)} ${are(alreadyRows)} ${there}`;
  return `${good} ${goodRows === 1 ? 'The good one is' : 'All good ones are'} ${there}`;
}
