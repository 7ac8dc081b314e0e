import pg from 'pg';

/** A raw connection: what somebody with the password could do without any code of ours. */
export async function rawConnection(url: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  return client;
}

/** Runs statements as the application inside one shop, and rolls them back. */
export async function asShop<T>(
  client: pg.Client,
  shopId: string,
  work: () => Promise<T>,
): Promise<T> {
  await client.query('BEGIN');
  try {
    await enterShop(client, shopId);
    return await work();
  } finally {
    await client.query('ROLLBACK');
  }
}

/** The same, committed. */
export async function asShopForGood<T>(
  client: pg.Client,
  shopId: string,
  work: () => Promise<T>,
): Promise<T> {
  await client.query('BEGIN');
  try {
    await enterShop(client, shopId);
    const done = await work();
    await client.query('COMMIT');
    return done;
  } catch (error) {
    await client.query('ROLLBACK');
    throw error;
  }
}

const enterShop = (client: pg.Client, shopId: string) =>
  client.query(
    "SELECT set_config('role', 'fairlead_shop', true), set_config('app.shop_id', $1, true)",
    [shopId],
  );

/** The SQLSTATE with which a statement fails; 'none' where it does not. */
export async function stateOf(attempt: Promise<unknown>): Promise<string> {
  try {
    await attempt;
    return 'none';
  } catch (error) {
    return error instanceof pg.DatabaseError ? (error.code ?? 'unknown') : String(error);
  }
}
