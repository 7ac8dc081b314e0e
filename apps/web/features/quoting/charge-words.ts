import type { ChargeKind } from '../../graphql/generated/graphql.ts';
import type { WantedCharge } from './use-wanted.ts';

export const chargeWords: Record<ChargeKind, string> = {
  outside_work: 'Outside work',
  freight: 'Freight',
  disposal: 'Disposal',
  call_out: 'Call-out',
  supplies: 'Shop supplies',
  other: 'Something else',
  core: 'Core of a part',
};

/** What has no usual name is called something. */
export const needsTitle = (kind: ChargeKind): boolean =>
  kind === 'outside_work' || kind === 'other';

/**
 * How a charge is priced, in words.
 *
 * @example pricedWords({ kind: 'freight', cost: '40', percent: '15', … }, 'USD') // → 'cost 40 USD, and 15 %'
 */
export function pricedWords(
  { kind, price, cost, percent, atMost }: Omit<WantedCharge, 'id' | 'title'>,
  currency: string,
): string {
  if (price !== '') return `${price} ${currency}`;
  if (kind !== 'supplies')
    return `cost ${cost} ${currency}${percent === '' ? '' : `, and ${percent} %`}`;
  if (percent === '') return 'by the shop’s rule';
  return `${percent} % of the likely labour${atMost === '' ? '' : `, at most ${atMost} ${currency}`}`;
}
