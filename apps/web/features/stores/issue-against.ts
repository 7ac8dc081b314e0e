import type { IssueException } from '../../graphql/generated/graphql.ts';
import { shelfLife } from './shelves.ts';

/** What a lot is, as far as it decides whether somebody has to answer for an issue. */
export interface LotToIssue {
  hasTrace: boolean;
  shelfLifeUntil: string | null;
  /** Left for anybody; less than 0 where fewer are there than were reserved. */
  available: string;
}

/**
 * What an issue is against, as the shop will find it: each wants a reason, under the name of whoever issues.
 *
 * @param own units that are reserved for the order that it goes to
 * @param today the shop's date, `YYYY-MM-DD`
 * @example issueAgainst({ hasTrace: false, shelfLifeUntil: null, available: '2' }, { quantity: '3', own: '0', today: '2026-12-01' }) // → ['no_trace', 'reserved_for_others']
 */
export function issueAgainst(
  { hasTrace, shelfLifeUntil, available }: LotToIssue,
  { quantity, own, today }: { quantity: string; own: string; today: string },
): IssueException[] {
  const open = Math.max(0, Number(available)) + Number(own);
  return [
    ...(hasTrace ? [] : (['no_trace'] as const)),
    ...(shelfLife(shelfLifeUntil, today).stands === 'past' ? (['past_shelf_life'] as const) : []),
    ...(Number(quantity) > open ? (['reserved_for_others'] as const) : []),
  ];
}

/** Each, as it is asked before an issue and said after it. */
export const againstWords: Record<IssueException, string> = {
  no_trace: 'without a release certificate',
  past_shelf_life: 'past its date',
  reserved_for_others: 'out of what is reserved for others',
  beyond_authority: 'past what the owner agreed to',
};

/** Such as "without a release certificate and past its date". */
export const againstText = (exceptions: readonly IssueException[]): string =>
  exceptions.map((each) => againstWords[each]).join(' and ');
