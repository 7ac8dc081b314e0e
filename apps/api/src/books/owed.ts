import type { Prisma } from '@fairlead/database';

/** What is still owed is read from. */
export const owedFacts = {
  issuedAt: true,
  grossMinor: true,
  creditsId: true,
  payments: { orderBy: [{ paidAt: 'asc' }, { id: 'asc' }], select: { amountMinor: true } },
  creditNotes: { where: { issuedAt: { not: null } }, select: { id: true, grossMinor: true } },
} satisfies Prisma.InvoiceSelect;

export interface OwedFacts {
  issuedAt: Date | null;
  grossMinor: bigint;
  creditsId: string | null;
  payments: readonly { amountMinor: bigint }[];
  creditNotes: readonly { grossMinor: bigint }[];
}

export const paidOf = ({ payments }: Pick<OwedFacts, 'payments'>): bigint =>
  payments.reduce((sum, { amountMinor }) => sum + amountMinor, 0n);

/**
 * What is still owed on an invoice: its gross, less what was paid, less what was credited. Below zero: to be paid back.
 * A draft and a credit note have nothing owed on them; what a note takes back counts at its invoice.
 */
export function owedOf(invoice: OwedFacts): bigint {
  if (!invoice.issuedAt || invoice.creditsId) return 0n;
  const credited = invoice.creditNotes.reduce((sum, { grossMinor }) => sum + grossMinor, 0n);
  return invoice.grossMinor + credited - paidOf(invoice);
}
