import type { Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { sayMinute } from '../given.ts';

/**
 * What a manager changes is held to the end of the transaction, and must still be as they read it: of two who save at
 * once the second is told what came first, and nothing of the first is lost.
 */

/** The shop, as it was read. */
export async function shopForChange(tx: Tx, expectedVersion: number) {
  await tx.$queryRaw`SELECT id FROM shop WHERE id = current_shop() FOR NO KEY UPDATE`;
  const shop = await tx.shop.findFirstOrThrow();
  if (shop.version !== expectedVersion)
    throw await cameFirst(tx, 'shop', shop.id, shop.name, expectedVersion, shop.version);
  return shop;
}

/** Somebody of the shop, held; whatever version was read. */
export async function personHeld(tx: Tx, personId: string) {
  await tx.$queryRaw`SELECT id FROM person WHERE shop_id = current_shop() AND id = ${personId}::uuid FOR NO KEY UPDATE`;
  const person = await tx.person.findUnique({ where: { id: personId } });
  if (!person) throw notFound('person');
  return person;
}

/** Somebody of the shop, as they were read. */
export async function personForChange(tx: Tx, personId: string, expectedVersion: number) {
  const person = await personHeld(tx, personId);
  if (person.version !== expectedVersion)
    throw await cameFirst(tx, 'person', person.id, person.name, expectedVersion, person.version);
  return person;
}

/** Nothing is planned with somebody who has left. */
export function refuseWhoLeft(person: { name: string; active: boolean }): void {
  if (!person.active)
    throw new Refused(
      'AGAINST_RULE',
      `${person.name} no longer works here: take them back first.`,
      'personId',
    );
}

async function cameFirst(
  tx: Tx,
  table: string,
  id: string,
  name: string,
  read: number,
  now: number,
): Promise<Refused> {
  const last = await tx.audit.findFirst({
    where: { tableName: table, rowId: id },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { at: true, personId: true },
  });
  const by = last?.personId
    ? await tx.person.findUnique({ where: { id: last.personId }, select: { name: true } })
    : null;
  const who = last
    ? ` by ${by?.name ?? 'the program'} on ${sayMinute(last.at)}`
    : ' by somebody else';
  return new Refused(
    'CONFLICT',
    `${name} was changed${who}, after you opened the sheet (you read version ${read}, it is ${now}). Nothing of yours is saved: look at what changed, then save again.`,
    'expectedVersion',
  );
}
