// Run by start.ts in a process of its own: the migration engine changes a database adapter in ways
// that must not reach anything else, and its memory is given back when it is done.
// Its answer is the last line it prints, as JSON; a refusal goes to stderr, with code 1.
import { prepareEmbedded, provision } from '../packages/database/src/provision.ts';
import { recreateDatabase } from '../packages/database/src/recreate.ts';

function needed(name: string): string {
  const value = process.env[name];
  if (!value) throw new RangeError(`prepare-database needs ${name}`);
  return value;
}

const given = () => ({
  appUrl: needed('DATABASE_URL'),
  migratorUrl: needed('MIGRATOR_DATABASE_URL'),
});

async function run(task: string | undefined): Promise<unknown> {
  switch (task) {
    case 'accounts':
      return prepareEmbedded(needed('EMBEDDED_ADMIN_URL'));
    case 'provision':
      return { applied: await provision(given()) };
    case 'demo': {
      // Only when asked for: a shop's own server has no demo, and need not carry its loader.
      const { loadDemo } = await import('../apps/api/src/demo/load-demo.ts');
      return loadDemo({ appUrl: needed('DATABASE_URL'), uploadsDir: needed('UPLOADS_DIR') });
    }
    case 'recreate':
      return recreateDatabase(given().migratorUrl);
    default:
      throw new RangeError(`prepare-database has no task "${task ?? ''}"`);
  }
}

/** What a person can act on, in one sentence; a stack only for a bug of ours. */
function explain(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const code = 'code' in error ? String(error.code) : '';
  const host = () => new URL(needed('MIGRATOR_DATABASE_URL')).host;
  if (/^(ECONNREFUSED|ENOTFOUND|ETIMEDOUT|EHOSTUNREACH|EAI_AGAIN)$/.test(code)) {
    return `The database server at ${host()} does not answer (${code}). Is it running, and is the address right?`;
  }
  // PostgreSQL's codes for a wrong password or account, and for a database that is not there.
  if (/^(28P01|28000|3D000)$/.test(code)) {
    return `The database server at ${host()} refuses MIGRATOR_DATABASE_URL: ${error.message}.`;
  }
  const bug = error instanceof TypeError || error instanceof RangeError;
  return bug ? (error.stack ?? error.message) : error.message;
}

try {
  const answer = (await run(process.argv[2])) ?? null;
  process.stdout.write(`\n${JSON.stringify(answer)}\n`, () => process.exit(0));
} catch (error) {
  process.stderr.write(`${explain(error)}\n`, () => process.exit(1));
}
