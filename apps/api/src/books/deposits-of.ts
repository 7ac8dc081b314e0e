import type { Prisma, Tx } from '@fairlead/database';
import { depositLeft, minor } from '@fairlead/money';
import { holdFor } from '../hold.ts';

/** What is left of a deposit is read from. */
export const depositFacts = {
  amountMinor: true,
  payments: { select: { amountMinor: true } },
  refunds: { select: { amountMinor: true } },
} satisfies Prisma.DepositSelect;

export interface DepositFacts {
  amountMinor: bigint;
  payments: readonly { amountMinor: bigint }[];
  refunds: readonly { amountMinor: bigint }[];
}

export const leftOf = ({ amountMinor, payments, refunds }: DepositFacts) =>
  depositLeft({
    amount: minor(amountMinor),
    setAgainst: payments.map((each) => minor(each.amountMinor)),
    refunds: refunds.map((each) => minor(each.amountMinor)),
  });

/** Holds the deposits of an order to the end of the transaction: none is set, freed, paid back or taken meanwhile. */
export const holdDeposits = (tx: Tx, orderId: string) => holdFor(tx, 'deposits of order', orderId);
