import { createHmac } from 'node:crypto';
import { runMigrations } from 'graphile-worker';
import pg from 'pg';
import { queueLogger, registerTasks } from './jobs.ts';
import { deploy } from './migrate.ts';
import { rolePool } from './role-pool.ts';
import { roles } from './roles.ts';

/** Held while a database is being provisioned; the number only has to be the same everywhere. */
const provisioningLock = 7_246_190_352;

/** Which server and accounts to provision, and which jobs may be asked for. */
export type ProvisionOptions = {
  /** The database, with the account that owns it and may create roles. */
  migratorUrl: string;
  /** The same database, with the application's account. */
  appUrl: string;
  /** Names of the jobs that the shop may ask for from the start. */
  taskNames?: readonly string[];
};

/** The account's name in a database URL. */
function userOf(url: string): string {
  return decodeURIComponent(new URL(url).username);
}

const quoted = (name: string): string => pg.escapeIdentifier(name);

/**
 * Brings a database to the state that this version needs: shop, identity and queue migrations, and the application's
 * account as a member of the four roles without any right of its own. Running it again changes nothing; two at a time wait for each other.
 *
 * @returns the migrations applied now
 * @throws Error in one sentence when the accounts are not what the design needs
 */
export async function provision(options: ProvisionOptions): Promise<string[]> {
  const client = new pg.Client({ connectionString: options.migratorUrl });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query('select pg_advisory_lock($1)', [provisioningLock]);
    await checkMigrator(client);
    await checkApplicationAccount(client, userOf(options.appUrl));
    const applied = await deploy(options.migratorUrl);
    await checkOwnsNothing(client, userOf(options.appUrl));
    await installQueue(client, options);
    await grantRoles(client, userOf(options.appUrl));
    await checkSignsIn(options.appUrl);
    return applied;
  } finally {
    await client.end();
  }
}

async function checkMigrator(client: pg.Client): Promise<void> {
  const { rows } = await client.query<{ me: string; database: string; owner: boolean }>(
    `select current_user as me, current_database() as database,
            pg_has_role(current_user, datdba, 'USAGE') as owner
       from pg_database where datname = current_database()`,
  );
  const found = rows[0];
  if (found && !found.owner) {
    throw new Error(
      `Cannot migrate the database ${found.database} as ${found.me}: that account does not own it. Run ALTER DATABASE ${quoted(found.database)} OWNER TO ${quoted(found.me)}.`,
    );
  }
}

async function checkApplicationAccount(client: pg.Client, user: string): Promise<void> {
  const { rows } = await client.query<{
    super: boolean;
    bypass: boolean;
    inherits: boolean;
    version: number;
    migrator: string;
  }>(
    `select rolsuper as super, rolbypassrls as bypass, rolinherit as inherits,
            current_setting('server_version_num')::int as version, current_user as migrator
       from pg_roles where rolname = $1`,
    [user],
  );
  const found = rows[0];
  if (!found) {
    throw new Error(
      `There is no account ${user} on the database server, which DATABASE_URL names. Run CREATE ROLE ${quoted(user)} LOGIN NOINHERIT PASSWORD '…'.`,
    );
  }
  if (found.super) {
    throw new Error(
      `The application must not use the account ${user}: it is a superuser, for whom the walls between shops do not exist. Give DATABASE_URL an account of its own.`,
    );
  }
  if (found.bypass) {
    throw new Error(
      `The application must not use the account ${user}: it has BYPASSRLS, so the walls between shops do not exist for it. Run ALTER ROLE ${quoted(user)} NOBYPASSRLS.`,
    );
  }
  if (user === found.migrator) {
    throw new Error(
      `The application must not use the account ${user}: it is the one that migrates and so owns the tables. Give DATABASE_URL an account of its own.`,
    );
  }
  // From 16 on each membership says for itself whether it is inherited; before that the account does.
  if (found.inherits && found.version < 160_000) {
    throw new Error(
      `The application's account ${user} would hold the rights of all its roles at once. Run ALTER ROLE ${quoted(user)} NOINHERIT.`,
    );
  }
}

async function checkOwnsNothing(client: pg.Client, user: string): Promise<void> {
  const { rows } = await client.query<{ name: string }>(
    `select c.oid::regclass::text as name
       from pg_class c join pg_namespace n on n.oid = c.relnamespace
      where n.nspname in ('public', 'identity', 'jobs') and c.relkind in ('r', 'p', 'v', 'm')
        and pg_has_role($1, c.relowner, 'MEMBER') and not pg_has_role('fairlead_jobs', c.relowner, 'MEMBER')
      limit 1`,
    [user],
  );
  if (rows[0]) {
    throw new Error(
      `The application must not use the account ${user}: it owns the table ${rows[0].name}, or is a member of the role that does, and an owner can switch off the walls between shops.`,
    );
  }
}

/** The queue's library makes its own tables; it insists on CREATE SCHEMA IF NOT EXISTS, which takes a right on the database. */
async function installQueue(client: pg.Client, options: ProvisionOptions): Promise<void> {
  const { rows } = await client.query<{ database: string }>(
    'select current_database() as database',
  );
  const database = quoted(rows[0]?.database ?? '');
  const pool = rolePool({ url: options.migratorUrl, role: roles.jobs, max: 2 });
  try {
    await client.query(`grant create on database ${database} to ${roles.jobs}`);
    await runMigrations({ pgPool: pool, logger: queueLogger() });
    await registerTasks(pool, options.taskNames ?? []);
  } finally {
    await client.query(`revoke create on database ${database} from ${roles.jobs}`);
    await pool.end();
  }
}

async function grantRoles(client: pg.Client, user: string): Promise<void> {
  const { rows } = await client.query<{ version: number }>(
    `select current_setting('server_version_num')::int as version`,
  );
  const only = (rows[0]?.version ?? 0) >= 160_000 ? 'with inherit false, set true' : '';
  for (const role of Object.values(roles)) {
    const held = await client.query(
      'select from pg_auth_members m where m.roleid = $1::regrole and m.member = $2::regrole',
      [role, quoted(user)],
    );
    // Granting again would only collide with another database of this server that does the same.
    if (held.rowCount === 0 || only !== '') {
      await retryOnCollision(() => client.query(`grant ${role} to ${quoted(user)} ${only}`));
    }
  }
}

/** Roles belong to the whole server, so two databases may be granting at the same moment. */
async function retryOnCollision(grant: () => Promise<unknown>): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await grant();
      return;
    } catch (error) {
      const collided =
        error instanceof Error && /concurrently updated|duplicate key/.test(error.message);
      if (!collided || attempt === 20) throw error;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}

async function checkSignsIn(appUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: appUrl });
  client.on('error', () => {});
  try {
    await client.connect();
    await client.query('begin');
    for (const role of Object.values(roles)) {
      await client.query(`select set_config('role', $1, true)`, [role]);
    }
    await client.query('rollback');
  } catch (cause) {
    throw new Error(
      `The application cannot use the database as ${userOf(appUrl)}: ${cause instanceof Error ? cause.message : String(cause)}.`,
      { cause },
    );
  } finally {
    await client.end().catch(() => {});
  }
}

/** The two URLs of a database on the embedded server. */
export type EmbeddedUrls = { migratorUrl: string; appUrl: string };

/**
 * Makes the accounts and the database that the embedded server needs, as an administrator would on a server of one's own:
 * `fairlead_owner` owns and migrates, `fairlead_app` serves. Their passwords follow from the server's secret, so nothing
 * has to be remembered.
 *
 * @param adminUrl the superuser's URL, with its password
 */
export async function prepareEmbedded(
  adminUrl: string,
  database = 'fairlead',
): Promise<EmbeddedUrls> {
  const admin = new URL(adminUrl);
  const passwordOf = (user: string) =>
    createHmac('sha256', admin.password).update(user).digest('hex').slice(0, 40);
  const urlOf = (user: string): string => {
    const url = new URL(adminUrl);
    url.username = user;
    url.password = passwordOf(user);
    url.pathname = `/${database}`;
    return url.href;
  };
  const client = new pg.Client({ connectionString: adminUrl });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query('select pg_advisory_lock($1)', [provisioningLock]);
    for (const [user, rights] of [
      ['fairlead_owner', 'createrole createdb'],
      ['fairlead_app', 'noinherit'],
    ] as const) {
      const found = await client.query('select from pg_roles where rolname = $1', [user]);
      const verb = found.rowCount === 0 ? 'create' : 'alter';
      await client.query(
        `${verb} role ${user} login nosuperuser nobypassrls ${rights} password ${pg.escapeLiteral(passwordOf(user))}`,
      );
    }
    const found = await client.query('select from pg_database where datname = $1', [database]);
    if (found.rowCount === 0) {
      await client.query(`create database ${quoted(database)} owner fairlead_owner`);
    }
  } finally {
    await client.end();
  }
  return { migratorUrl: urlOf('fairlead_owner'), appUrl: urlOf('fairlead_app') };
}
