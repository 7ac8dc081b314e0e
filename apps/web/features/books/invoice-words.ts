import type { InvoiceState } from '../../graphql/generated/graphql.ts';

interface Named {
  number: number | null;
  state: InvoiceState;
  credits: { id: string } | null;
}

/** "Draft invoice", "Invoice 12", "Credit note 13". */
export function invoiceName({ number, credits }: Pick<Named, 'number' | 'credits'>): string {
  if (number === null) return 'Draft invoice';
  return `${credits === null ? 'Invoice' : 'Credit note'} ${number}`;
}

/** How far an invoice has come, in words. */
export function stateWords({ state, credits }: Pick<Named, 'state' | 'credits'>, owed: bigint) {
  if (state === 'draft') return 'draft';
  if (credits !== null) return 'credit note';
  if (state === 'credited') return owed < 0n ? 'credited, to be paid back' : 'credited';
  return owed === 0n ? 'paid' : 'issued';
}

/** The address of an invoice's sheet. */
export const invoiceHref = (id: string): string => `/books/${encodeURIComponent(id)}`;
