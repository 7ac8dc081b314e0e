import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeOrder } from './orders.ts';

export const DAY_MS = 86_400_000;
export const at = (time: string, day = '06') => new Date(`2031-05-${day}T${time}:00Z`);
export const phone = (clockOffsetMs = 0, id: string = randomUUID()) => ({ id, clockOffsetMs });
export type Phone = ReturnType<typeof phone>;

/** A shop with an order of so many items. */
export async function benchOf(api: TestApi, count: number) {
  const shop = await makeShop(api);
  const { items, orderId } = await makeOrder(shop, {
    items: Array.from({ length: count }, () => ({})),
  });
  return { shop, orderId, items: items.map(({ id }) => id) };
}
export const stretches = (shop: TestShop) =>
  shop.inside(async (tx) => {
    const rows = await tx.stretch.findMany({ orderBy: { startedAt: 'asc' } });
    return rows.map(({ itemId, startedAt, endedAt }) => [
      globalId('WorkItem', itemId),
      startedAt.toISOString(),
      endedAt?.toISOString() ?? null,
    ]);
  });
