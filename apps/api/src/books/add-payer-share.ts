import type { PayerKind, PayerTake } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';
import { holdFor } from '../hold.ts';
import { sayMoney } from './given-money-in.ts';
import { refuseBilled } from './refuse-billed.ts';

export interface AddPayerShareInput {
  orderId: string;
  contactId: string;
  kind: PayerKind;
  take: PayerTake;
  percent: string | null;
  amount: bigint | null;
  deductible: bigint | null;
  /** None: of the whole order. */
  itemIds: readonly string[];
  reference: string | null;
}

const MOST_ITEMS = 200;

/** Keeps that a warranty giver or an insurer pays a part of an order. Its invoices are then made one for each payer. */
export async function addPayerShare(context: Context, input: AddPayerShareInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'manager');
  const { orderId, contactId, kind, take } = input;
  const reference = givenText(input.reference, 'reference', { most: 120 });
  const itemIds = [...new Set(input.itemIds)];
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'invoices of order', orderId);
    const order = await tx.workOrder.findUnique({
      where: { id: orderId },
      select: {
        number: true,
        events: { where: { kind: 'cancelled' }, select: { id: true } },
        items: { where: { id: { in: itemIds } }, select: { id: true } },
      },
    });
    if (!order) throw notFound('order');
    const contact = await tx.contact.findUnique({ where: { id: contactId }, select: { id: true } });
    if (!contact) throw notFound('contact');
    const { currency } = await tx.shop.findFirstOrThrow({ select: { currency: true } });
    // decide
    const { percent, amountMinor } = howMuch(input, currency);
    const deductibleMinor = input.deductible ?? 0n;
    if (deductibleMinor < 0n)
      throw new Refused(
        'BAD_INPUT',
        `A deductible of ${sayMoney(deductibleMinor, currency)} was refused: needed is 0 or more.`,
        'deductible',
      );
    if (itemIds.length > MOST_ITEMS)
      throw new Refused(
        'BAD_INPUT',
        `itemIds has ${itemIds.length} entries: at most ${MOST_ITEMS}.`,
        'itemIds',
      );
    if (order.items.length < itemIds.length) throw notFound(`item of order ${order.number}`);
    if (order.events.length > 0)
      throw new Refused('AGAINST_RULE', `Order ${order.number} was cancelled: nobody pays for it.`);
    await refuseBilled(tx, orderId, order.number);
    // save
    const { id } = await tx.payerShare.create({
      data: {
        ...{ orderId, contactId, kind, take, percent, amountMinor, deductibleMinor, reference },
        ...{ at: context.now(), byId: personId },
      },
      select: { id: true },
    });
    await tx.payerShareItem.createMany({
      data: itemIds.map((itemId) => ({ shareId: id, itemId })),
    });
    return id;
  });
}

function howMuch({ take, percent, amount }: AddPayerShareInput, currency: string) {
  if ((percent !== null) !== (take === 'percent') || (amount !== null) !== (take === 'sum'))
    throw new Refused(
      'BAD_INPUT',
      `take is ${take}: needed with it is ${take === 'whole' ? 'neither a per cent nor an amount' : take === 'percent' ? 'a per cent and no amount' : 'an amount and no per cent'}.`,
      'take',
    );
  if (amount !== null && amount <= 0n)
    throw new Refused(
      'BAD_INPUT',
      `A share of ${sayMoney(amount, currency)} was refused: needed is more than 0.`,
      'amount',
    );
  return {
    percent:
      percent === null ? null : givenQuantity(percent, 'percent', { most: 100, decimals: 4 }),
    amountMinor: amount,
  };
}
