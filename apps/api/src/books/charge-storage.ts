import { formatMoney, currency as knownCurrency } from '@fairlead/money';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { shopToday } from '../today.ts';
import { keepOrderCharge } from './order-charges.ts';
import { storageOf } from './storage-of.ts';

/**
 * Charges the days of storage that are not on the order yet, as they were shown. Nothing is charged unless somebody says so.
 *
 * @returns the id of the charge
 */
export async function chargeStorage(
  context: Context,
  { orderId, days }: { orderId: string; days: number },
): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const today = await shopToday(context);
  const now = context.now();
  return context.write(async (tx) => {
    await holdFor(tx, 'invoices of order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: { number: true },
    });
    if (!order) throw notFound('order');
    const storage = await storageOf(tx, orderId, now);
    const { currency } = await tx.shop.findFirstOrThrow({ select: { currency: true } });
    if (!storage)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} has no storage: the shop has set no price for it, or nobody was told that the aircraft is ready.`,
      );
    const open = storage.days - storage.charged;
    if (open <= 0)
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} has no day of storage that is not charged: told on ${sayDay(storage.toldOn)}, ${storage.freeDays} days free, ${storage.charged} charged.`,
      );
    if (days !== open)
      throw new Refused(
        'CONFLICT',
        `${days} days of storage were to be charged; it is ${open} now, ${formatMoney(storage.open, knownCurrency(currency))} ${currency}: look at it again.`,
        'days',
      );
    const title = `Storage, ${open} ${open === 1 ? 'day' : 'days'} until ${sayDay(storage.lastOn)}, told ready ${sayDay(storage.toldOn)}`;
    const wanted = {
      kind: 'other' as const,
      title,
      price: storage.open,
      cost: null,
      percent: null,
      atMost: null,
    };
    return keepOrderCharge(tx, { orderId, wanted, today, now, personId, storageDays: open });
  });
}
