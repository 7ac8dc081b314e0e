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

/** The rule in a sentence. */
export const sayBilledTime = ({ step, rounding, minimum }: BilledTimeRule): string =>
  `The time on an item is billed in steps of ${step} h, ${rounding === 'up' ? 'a step begun counts whole' : 'to the nearest'}${minimum ? `, at least ${minimum} h` : ''}; the amounts are foretold so.`;
