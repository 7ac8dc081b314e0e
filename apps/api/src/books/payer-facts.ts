import type { Prisma } from '@fairlead/database';

/** What the payers of an order are read from: those that were not ended, in the order in which they were named. */
export const payerFacts = {
  where: { ends: { none: {} } },
  orderBy: [{ at: 'asc' }, { id: 'asc' }],
  select: {
    ...{ id: true, contactId: true, take: true, percent: true, amountMinor: true },
    ...{ deductibleMinor: true, reference: true, at: true },
    contact: { select: { name: true } },
    items: { select: { itemId: true } },
  },
} as const satisfies Prisma.WorkOrder$payersArgs;

export type Payer = Prisma.PayerShareGetPayload<{ select: typeof payerFacts.select }>;
