import type { Tx } from '@fairlead/database';
import { minor, setDeposits } from '@fairlead/money';
import { inTurn, type Turn } from '../work/queries.ts';
import { depositFacts, holdDeposits, leftOf } from './deposits-of.ts';

interface Setting {
  orderId: string;
  invoiceId: string;
  currency: string;
  /** With tax: what is owed before anything is paid. */
  grossMinor: bigint;
  now: Date;
  personId: string;
  /** Whose deposits they are, where the aircraft was sold mid-work. */
  turn: Turn;
}

/** Sets what is left of the order's deposits against an invoice that is being issued, the oldest first: it is paid by so much (BT-113). */
export async function setDepositsAgainst(tx: Tx, setting: Setting): Promise<void> {
  const { orderId, invoiceId, currency, grossMinor, now, personId, turn } = setting;
  await holdDeposits(tx, orderId);
  const taken = await tx.deposit.findMany({
    where: { orderId, currency },
    orderBy: [{ paidAt: 'asc' }, { number: 'asc' }],
    select: { id: true, number: true, paidAt: true, ...depositFacts },
  });
  const deposits = taken.filter(({ paidAt }) => inTurn(turn)({ at: paidAt }));
  const set = setDeposits(deposits.map(leftOf), minor(grossMinor));
  for (const [index, { id, number }] of deposits.entries()) {
    const amountMinor = set[index] ?? 0n;
    if (amountMinor > 0n)
      await tx.payment.create({
        data: {
          ...{ invoiceId, amountMinor, depositId: id, method: `deposit, receipt ${number}` },
          ...{ paidAt: now, recordedAt: now, recordedById: personId },
        },
        select: { id: true },
      });
  }
}

/** Frees what an invoice that is being credited had of deposits, so that it can be set against the next or paid back. */
export async function freeDeposits(
  tx: Tx,
  { orderId, invoiceId, now, personId }: Omit<Setting, 'currency' | 'grossMinor' | 'turn'>,
): Promise<void> {
  await holdDeposits(tx, orderId);
  const used = await tx.payment.groupBy({
    by: ['depositId', 'method'],
    where: { invoiceId, depositId: { not: null } },
    _sum: { amountMinor: true },
  });
  for (const { depositId, method, _sum } of used) {
    const amountMinor = -(_sum.amountMinor ?? 0n);
    if (amountMinor < 0n)
      await tx.payment.create({
        data: {
          ...{ invoiceId, amountMinor, depositId, method },
          ...{ paidAt: now, recordedAt: now, recordedById: personId },
        },
        select: { id: true },
      });
  }
}
