import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { orderFacts, orderState } from '../states.ts';

/**
 * The items that parts are bought for, each once. Parts are ordered before an aircraft comes, too; not for work that is over.
 *
 * @throws Refused
 */
export async function workToBuyFor(
  tx: Tx,
  lines: readonly { itemId: string | null }[],
): Promise<{ id: string; orderId: string }[]> {
  const ids = [...new Set(lines.flatMap(({ itemId }) => itemId ?? []))];
  if (ids.length === 0) return [];
  const items = await tx.workItem.findMany({
    where: { id: { in: ids } },
    orderBy: { id: 'asc' },
    select: { id: true, orderId: true, order: { select: { number: true, ...orderFacts } } },
  });
  if (items.length < ids.length) throw notFound('item');
  for (const { order } of items) {
    const state = orderState(order);
    if (state !== 'planned' && state !== 'here' && state !== 'ready_to_sign')
      throw new Refused(
        'AGAINST_RULE',
        `Order ${order.number} is ${state}: nothing is bought for its work any more. Leave the work out, and it is bought for the shop's stock.`,
        'itemId',
      );
  }
  return items.map(({ id, orderId }) => ({ id, orderId }));
}
