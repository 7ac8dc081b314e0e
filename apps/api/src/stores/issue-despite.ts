import type { IssueException, Prisma } from '@fairlead/database';
import { formatAmount } from '@fairlead/money';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import type { BeyondWithPart } from '../work/index.ts';

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
  if (found.size > 0) refuseWithoutReason(lot.name, reason);
  return [...found.keys()];
}

/**
 * The same of an issue that takes its order past what the owner agreed to.
 *
 * @throws Refused
 */
export function despiteAuthority(
  past: BeyondWithPart | null,
  lotName: string,
  { despite, reason }: IssueAsked,
): IssueException[] {
  if (past === null) return [];
  if (!despite.includes('beyond_authority'))
    throw new Refused(
      'BEYOND_AGREED',
      `With ${lotName} ${pastWords(past)}: ask the owner for more, or give your reason for issuing it all the same; it is kept under your name, and stays unbilled until it is agreed or written off.`,
      'quantity',
    );
  refuseWithoutReason(lotName, reason);
  return ['beyond_authority'];
}

/**
 * The same of a purchase order that would take an order of work past it, at what its lines would be billed at.
 *
 * @throws Refused
 */
export function orderedDespite(
  past: BeyondWithPart,
  number: number,
  { despite, reason }: Omit<IssueAsked, 'quantity'>,
): IssueException[] {
  if (!despite.includes('beyond_authority'))
    throw new Refused(
      'BEYOND_AGREED',
      `With purchase order ${number} ${pastWords(past)}, at what its parts are billed at: ask the owner for more, or give your reason for sending it all the same; it is kept under your name.`,
      'orderId',
    );
  refuseWithoutReason(`purchase order ${number}`, reason, 'sending');
  return ['beyond_authority'];
}

/** "order 12 would go 20.00 USD past the 200.00 USD that are agreed" */
const pastWords = ({ order, beyond, ceiling, currency }: BeyondWithPart): string =>
  `order ${order} would go ${formatAmount(beyond, currency)} ${currency} past the ${formatAmount(ceiling, currency)} ${currency} that are agreed`;

function refuseWithoutReason(name: string, reason: string, doing = 'issuing'): void {
  if (reason.length < 3)
    throw new Refused(
      'BAD_INPUT',
      `The reason for ${doing} ${name} all the same has ${reason.length} characters: needed are at least 3; it is kept under your name.`,
      'reason',
    );
}
