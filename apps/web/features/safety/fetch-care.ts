import type { QueryClient } from '@tanstack/react-query';
import { orderAsked, torqueChoicesAsked } from './use-open.ts';

/** What is open on some orders, and the wrenches, asked for before somebody looks: it is then here without a network. */
export async function fetchCare(queries: QueryClient, orders: readonly string[]): Promise<void> {
  await queries.fetchQuery(torqueChoicesAsked);
  for (const id of orders) await queries.fetchQuery(orderAsked(id));
}
