import type { Tx } from '@fairlead/database';
import { itemFacts, itemState } from '../states.ts';
import { ordersHere } from './orders-in-states.ts';

const onTheBench = new Set(['open', 'in_work', 'waiting', 'done']);

/** Ids of the items of aircraft that are here, and not yet inspected or put off. */
export async function benchItemIds(read: Tx): Promise<string[]> {
  const items = await read.workItem.findMany({
    where: { order: ordersHere },
    select: { id: true, ...itemFacts },
  });
  return items.filter((item) => onTheBench.has(itemState(item))).map(({ id }) => id);
}
