import pg from 'pg';

/**
 * Drops a database with everything in it and makes it again, empty. The caller has made sure that this is wanted.
 *
 * @param migratorUrl the database, with the account that owns it and may create databases
 * @throws Error before anything is dropped, when the account may not make it again
 */
export async function recreateDatabase(migratorUrl: string): Promise<void> {
  const url = new URL(migratorUrl);
  const name = decodeURIComponent(url.pathname.slice(1));
  // A database cannot be dropped from inside itself.
  url.pathname = '/postgres';
  const client = new pg.Client({ connectionString: url.href });
  client.on('error', () => {});
  await client.connect();
  try {
    const { rows } = await client.query<{ me: string; may: boolean; owns: boolean | null }>(
      `select current_user as me, r.rolsuper or r.rolcreatedb as may,
              (select pg_has_role(current_user, datdba, 'USAGE') from pg_database where datname = $1) as owns
         from pg_roles r where r.rolname = current_user`,
      [name],
    );
    const found = rows[0];
    if (!found?.may) {
      throw new Error(
        `Cannot make the database ${name} again as ${found?.me ?? 'this account'}, so it was not dropped: the account may not create databases. Run ALTER ROLE ${pg.escapeIdentifier(found?.me ?? '')} CREATEDB.`,
      );
    }
    if (found.owns === false) {
      throw new Error(
        `Cannot drop the database ${name} as ${found.me}: that account does not own it.`,
      );
    }
    const quoted = pg.escapeIdentifier(name);
    await client.query(`drop database if exists ${quoted} with (force)`);
    await client.query(`create database ${quoted} template template0`);
  } finally {
    await client.end();
  }
}
