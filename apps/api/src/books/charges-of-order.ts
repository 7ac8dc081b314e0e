import type { Prisma } from '@fairlead/database';
import { type AgreedLine, type Currency, formatAmount, minor, nothing } from '@fairlead/money';
import type { Tax } from '../quoting/queries.ts';

/** Charges of an order that were not taken back, in the order in which they were said. */
export const chargeFacts = {
  where: { ends: { none: {} } },
  orderBy: [{ at: 'asc' }, { id: 'asc' }],
  select: { id: true, title: true, category: true, amountMinor: true, at: true },
} as const satisfies Prisma.WorkOrder$chargesArgs;

type Charge = Prisma.OrderChargeGetPayload<{ select: typeof chargeFacts.select }>;

/**
 * A charge beside the quote as a line of what is billed: a piece at its price, taxed as its category is today. It gives way
 * where the whole goes past what the owner agreed to, the last one said first.
 */
export function chargeLine(
  { id, title, amountMinor }: Charge,
  { code, rate }: Tax,
  currency: Currency,
): AgreedLine {
  return {
    ...{ id, title, pricing: 'time_and_materials' },
    ...{ quotedLabour: nothing, quotedParts: nothing, labourRate: '0' },
    ...{ taxCategory: code, taxRate: rate, stretches: [] },
    parts: [
      {
        ...{ movementId: id, title, quantity: '1', taxCategory: code, taxRate: rate },
        unitPrice: formatAmount(minor(amountMinor), currency),
      },
    ],
  };
}
