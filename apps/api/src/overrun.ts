import type { Prisma } from '@fairlead/database';
import { type Minor, minor, type OverrunRule, overrunAllowed } from '@fairlead/money';

/** The shop's columns that say how far work may go past the owner's yes without asking. */
export const overrunColumns = {
  overrunMinor: true,
  overrunPercent: true,
} as const satisfies Prisma.ShopSelect;

type Columns = Prisma.ShopGetPayload<{ select: typeof overrunColumns }>;

/** The shop's rule for small overruns; it allows nothing unless somebody set it. */
export const overrunOf = ({ overrunMinor, overrunPercent }: Columns): OverrunRule => ({
  ...(overrunMinor !== null && { sum: minor(overrunMinor) }),
  ...(overrunPercent !== null && { percent: overrunPercent.toFixed() }),
});

/** How far an order may be worked and billed: the owner's yes, and what the shop's rule allows past it. */
export const ceilingOf = (agreed: Minor, rule: OverrunRule): Minor =>
  minor(agreed + overrunAllowed(agreed, rule));
