import type { IssueException, Prisma } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';

export interface IssueAsked {
  quantity: string;
  /** What whoever issues knows of and issues against. */
  despite: readonly IssueException[];
  reason: string;
}

export interface LotToIssue {
  name: string;
  tag: string;
  documents: number;
  shelfLifeUntil: Date | null;
  /** Left for anybody, and reserved for the order that it goes to. */
  free: Prisma.Decimal;
  own: Prisma.Decimal;
}

/** Where an issue is against a rule that somebody may answer for by name: what is said of it, and at which field. */
function against(lot: LotToIssue, quantity: string, today: Date): Map<IssueException, string> {
  const found = new Map<IssueException, string>();
  if (lot.tag === '' && lot.documents === 0)
    found.set(
      'no_trace',
      `${lot.name} came without a release certificate: neither a number nor a document is kept with it. Take a lot with one`,
    );
  if (lot.shelfLifeUntil && lot.shelfLifeUntil < today)
    found.set(
      'past_shelf_life',
      `${lot.name} was good until ${sayDay(lot.shelfLifeUntil)}, and today is ${sayDay(today)}: take a lot that is within its shelf life`,
    );
  const open = lot.free.isNegative() ? lot.own : lot.free.plus(lot.own);
  if (open.lessThan(quantity))
    found.set(
      'reserved_for_others',
      `${quantity} of ${lot.name} would take what is reserved for another order: ${open.toFixed()} are free for this one. Take less`,
    );
  return found;
}

/**
 * What an issue is made against, all of it answered for: what nobody said they know of is refused, and so is a reason
 * without words. What was said and does not apply is left out.
 *
 * @throws Refused
 */
export function despiteOf(
  lot: LotToIssue,
  { quantity, despite, reason }: IssueAsked,
  today: Date,
): IssueException[] {
  const found = against(lot, quantity, today);
  for (const [exception, sentence] of found)
    if (!despite.includes(exception))
      throw new Refused(
        'AGAINST_RULE',
        `${sentence}, or give your reason for issuing it all the same; it is kept under your name.`,
        exception === 'reserved_for_others' ? 'quantity' : 'lotId',
      );
  if (found.size > 0 && reason.length < 3)
    throw new Refused(
      'BAD_INPUT',
      `The reason for issuing ${lot.name} all the same has ${reason.length} characters: needed are at least 3; it is kept under your name.`,
      'reason',
    );
  return [...found.keys()];
}
