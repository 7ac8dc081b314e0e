import { type IssueException, Prisma } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { Refused } from '../errors.ts';
import { givenKey, givenQuantity, givenText } from '../given.ts';
import { shopToday } from '../today.ts';
import { beyondWithParts, comingLot } from '../work/index.ts';
import { despiteAuthority, despiteOf } from './issue-despite.ts';
import { holdOrderOf, itemOfOpenOrder, lotForChange, movedBefore } from './lot-for-change.ts';
import { availableOf, reservedFacts, reservedFor } from './reserved.ts';

export interface MovePartInput {
  lotId: string;
  itemId: string;
  quantity: string;
  /** Made by the page; it becomes the movement's key, so that what is sent twice moves once. */
  clientEventId: string | null;
}

export interface IssuePartInput extends MovePartInput {
  /** What whoever issues knows of, and issues against for their reason. */
  despite?: readonly IssueException[];
  reason?: string | null;
}

/**
 * Takes parts out of a lot for an item: what is reserved for its order first. Never more than is there. Without trace,
 * past its shelf life, reserved for others or past what the owner agreed to it goes only by the reason of whoever issues it, kept
 * under their name.
 */
export async function issuePart(context: Context, input: IssuePartInput): Promise<string> {
  const { personId } = await allow(context, 'mechanic', 'inspector', 'front_desk', 'manager');
  const key = givenKey(input.clientEventId);
  const quantity = givenQuantity(input.quantity, 'quantity', { most: 100_000, decimals: 3 });
  const reason = givenText(input.reason, 'reason', { most: 300 });
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdOrderOf(tx, input.itemId);
    const lot = await lotForChange(tx, input.lotId);
    const before = await movedBefore(tx, key, { ...input, kind: 'issue' });
    if (before) return before;
    const item = await itemOfOpenOrder(tx, input.itemId);
    const facts = await tx.lot.findUniqueOrThrow({
      where: { id: lot.id },
      select: { ...reservedFacts, ...comingLot },
    });
    const documents = await tx.lotDocument.count({ where: { lotId: lot.id } });
    const { available: free } = availableOf(facts);
    const own = reservedFor(facts).get(item.orderId) ?? free.minus(free);
    // decide
    if (lot.onHand.lessThan(quantity))
      throw new Refused(
        'AGAINST_RULE',
        `${quantity} of ${lot.name} cannot be issued: the lot holds ${lot.onHand.toFixed()} (${lot.part.unit}).`,
        'quantity',
      );
    const asked = { quantity, despite: input.despite ?? [], reason };
    const past = await beyondWithParts(
      tx,
      { orderId: item.orderId, day: today, now: context.now() },
      [
        {
          itemId: item.id,
          quantity: new Prisma.Decimal(quantity),
          lot: facts,
          lineId: facts.purchaseLineId,
        },
      ],
    );
    const despite = [
      ...despiteOf({ ...lot, documents, free, own }, asked, today),
      ...despiteAuthority(past, lot.name, asked),
    ];
    // save
    await tx.stockMovement.create({
      data: {
        ...(key && { id: key }),
        lotId: lot.id,
        itemId: item.id,
        kind: 'issue',
        quantity: `-${quantity}`,
        fromReserved: own.lessThan(quantity) ? own : quantity,
        despite,
        reason,
        at: context.now(),
        byId: personId,
      },
    });
    return lot.id;
  });
}
