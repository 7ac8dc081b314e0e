import type { Prisma } from '@fairlead/database';
import type { BilledTimeRule } from '@fairlead/money';

/** The shop's columns that say how clocked time is billed. */
export const billedTimeColumns = {
  billingStep: true,
  billingRounding: true,
  billingMinimum: true,
} as const satisfies Prisma.ShopSelect;

type Columns = Prisma.ShopGetPayload<{ select: typeof billedTimeColumns }>;

/** The shop's rule for billed time. */
export const billedTimeOf = ({
  billingStep,
  billingRounding,
  billingMinimum,
}: Columns): BilledTimeRule => ({
  step: billingStep.toFixed(),
  rounding: billingRounding,
  ...(billingMinimum && { minimum: billingMinimum.toFixed() }),
});
