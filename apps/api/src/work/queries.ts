import type { Choice, ItemEventKind, Prisma } from '@fairlead/database';
import { agreed, type Minor, minor } from '@fairlead/money';
import { cutOf, inTurn, type SoldFacts, soldFacts } from './owner-of-now.ts';

/** What the owner's agreement to an order is read from: every answer to every quote of it. */
export const agreedFacts = {
  sales: soldFacts,
  quotes: {
    select: {
      id: true,
      revisions: {
        // Said outright, so that whoever needs the newest asks for the same and is answered with the same rows.
        orderBy: { revision: 'desc' },
        select: {
          decisions: { select: { id: true, choice: true, ceilingMinor: true, decidedAt: true } },
        },
      },
    },
  },
} satisfies Prisma.WorkOrderSelect;

export interface AgreedFacts extends SoldFacts {
  quotes: readonly {
    id: string;
    revisions: readonly {
      decisions: readonly {
        id: string;
        choice: Choice;
        ceilingMinor: bigint | null;
        decidedAt: Date;
      }[];
    }[];
  }[];
}

/**
 * How far the owner's yes goes, net: over all quotes of an order, the ceiling of the last answer to each. A no after
 * a yes takes it back; "talk to me first" is no answer. What a seller agreed to lapsed with the sale.
 */
export function agreedOf({ quotes, sales = [] }: AgreedFacts): Minor {
  const here = inTurn({ after: cutOf({ sales }), until: null });
  return agreed(
    quotes.flatMap(({ id: scope, revisions }) =>
      revisions
        .flatMap(({ decisions }) => decisions)
        .filter(({ choice, decidedAt }) => choice !== 'talk_first' && here({ at: decidedAt }))
        .map(({ id, ceilingMinor, decidedAt }) => ({
          id,
          scope,
          ceiling: minor(ceilingMinor ?? 0n),
          decidedAt,
        })),
    ),
  );
}

/**
 * Whether anybody ever said yes to anything of an order, though it may not hold any more: taken back, or of somebody who sold
 * the aircraft. Until then there is no ceiling that something could be held against.
 */
export const everAgreed = ({ quotes }: Pick<AgreedFacts, 'quotes'>): boolean =>
  quotes.some(({ revisions }) =>
    revisions.some(({ decisions }) => decisions.some(({ choice }) => choice === 'go_ahead')),
  );

/**
 * Whether work that is sold at one price has begun: somebody clocked on one of its items, or one is done. From then
 * on the price counts whole, in what an order has come to and on its invoice (common practice, no source).
 */
export const hasBegun = (
  items: readonly {
    events: readonly { kind: ItemEventKind }[];
    stretches: readonly unknown[];
  }[],
): boolean =>
  items.some(
    ({ events, stretches }) => stretches.length > 0 || events.some(({ kind }) => kind === 'done'),
  );

/** Who pays for an item: asked by whoever bills. */
export { billedOf, ourCostFacts, ourCostOf } from './at-our-cost.ts';
/** Whose work it is, where the aircraft was sold meanwhile: asked by whoever bills. */
export {
  cutOf,
  inTurn,
  leftOfIssues,
  movementsInTurn,
  soldFacts,
  stretchesInTurn,
  type Turn,
} from './owner-of-now.ts';
/** Where a photo's file is: asked by whoever prints it. */
export { photoFile } from './photo-files.ts';
/** Holds the clocks of an order while it is billed. */
export { holdClocksOf } from './rebuild-stretches.ts';
/** Ends a running clock: asked for when its person leaves. */
export { stopClockOf } from './stop-clock-of.ts';
