import type { Tx } from '@fairlead/database';

/**
 * Holds one thing to the end of this transaction: whoever else holds the same waits. For what no row lock can
 * guard, because the row may not exist yet or may not be changed by the application.
 *
 * Hold several things always in the order shop, purchase, order, invoices of order, item, lot, person, or two transactions wait for
 * each other.
 */
export async function holdFor(tx: Pick<Tx, '$queryRaw'>, kind: string, id: string): Promise<void> {
  // A shop's locks are its own: current_shop() is part of the key.
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(concat_ws(':', current_shop(), ${kind}::text, ${id}::text), 0))::text`;
}

/** Holds many things of one kind, in one statement, always in the same order. */
export async function holdAllFor(
  tx: Pick<Tx, '$queryRaw'>,
  kind: string,
  ids: readonly string[],
): Promise<void> {
  const sorted = [...ids].sort();
  await tx.$queryRaw`SELECT count(pg_advisory_xact_lock(hashtextextended(concat_ws(':', current_shop(), ${kind}::text, id), 0))) FROM unnest(${sorted}::text[]) AS id`;
}
