import { type Client, inShop } from '@fairlead/database';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { Refused } from '../errors.ts';
import { newId } from '../new-id.ts';

export interface FoundShop {
  id: string;
  name: string;
  timeZone: string;
}

/**
 * The shop that a command is for: the one of that name, or the only one there is. No role of the program
 * sees more than one shop, so the ids come from the memberships and each name from inside its shop.
 *
 * @throws Refused when there is none, when several could be meant, or none has the name
 */
export async function findShop(client: Client, appUrl: string, name?: string): Promise<FoundShop> {
  const pool = rolePool({ url: appUrl, role: roles.identity, max: 1 });
  const ids = await pool
    .query<{ shop_id: string }>('select distinct shop_id from identity.membership order by shop_id')
    .then(({ rows }) => rows.map((row) => row.shop_id))
    .finally(() => pool.end());
  const shops: FoundShop[] = [];
  for (const id of ids) {
    const shop = await inShop(client, { shopId: id, personId: null, requestId: newId() }, (tx) =>
      tx.shop.findUniqueOrThrow({
        where: { id },
        select: { id: true, name: true, timeZone: true },
      }),
    );
    shops.push(shop);
  }
  const fitting =
    name === undefined ? shops : shops.filter((shop) => shop.name === name || shop.id === name);
  const [only] = fitting;
  if (only && fitting.length === 1) return only;
  const list = shops.map((shop) => `  ${shop.name} (${shop.id})`).join('\n');
  if (shops.length === 0)
    throw new Refused(
      'NOT_FOUND',
      'There is no shop in this database yet: run "npm start" once, which loads the demo shop.',
    );
  if (fitting.length === 0)
    throw new Refused(
      'NOT_FOUND',
      `There is no shop "${name}" in this database. There are:\n${list}`,
    );
  throw new Refused(
    'BAD_INPUT',
    `${fitting.length} shops could be meant; say which with --shop NAME (or its id):\n${list}`,
  );
}
