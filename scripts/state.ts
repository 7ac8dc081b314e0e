import { createHash, randomBytes } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { Refusal } from './progress.ts';

/** Where this shop's own files are: uploads, the sign-in secret, logs. */
export interface State {
  readonly dir: string;
  readonly uploadsDir: string;
  /** Ours to empty: not a folder that somebody named with UPLOADS_DIR. */
  readonly uploadsAreOurs: boolean;
  readonly logsDir: string;
}

/**
 * The folder that holds everything a running shop keeps. Inside the checkout it is `.data`; where the
 * embedded database lives outside (root, a read-only checkout), it is a folder named after the database's.
 */
function baseDir(dataDir: string): string {
  const given = process.env['FAIRLEAD_DATA_DIR'];
  if (given) return path.resolve(given);
  return path.basename(path.dirname(dataDir)) === '.data'
    ? path.dirname(dataDir)
    : `${dataDir}-files`;
}

/** FAIRLEAD_DATA_DIR moves everything, so that a test or a second shop can run beside the first. */
export function dataDirFrom(defaultDataDir: string): string {
  const given = process.env['FAIRLEAD_DATA_DIR'];
  return given ? path.join(path.resolve(given), 'postgres') : defaultDataDir;
}

function makePrivate(folder: string): void {
  fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
  const found = fs.statSync(folder);
  // Temporary folders are open to all: somebody else may have put this name there first.
  if (process.getuid && found.uid !== process.getuid()) {
    throw new Error('it belongs to another account');
  }
}

/** Opens the state folder; each database server that is used instead of the embedded one has its own. */
export function openState(dataDir: string, databaseUrl: string | undefined): State {
  const base = baseDir(dataDir);
  const mark = createHash('sha256')
    .update(databaseUrl ?? '')
    .digest('hex')
    .slice(0, 12);
  const dir = databaseUrl === undefined ? base : path.join(base, `server-${mark}`);
  const given = process.env['UPLOADS_DIR'] || undefined;
  const uploadsDir = path.resolve(given ?? path.join(dir, 'uploads'));
  const logsDir = path.join(dir, 'logs');
  try {
    makePrivate(base);
    // As root the database server runs under another account, which must be able to pass through.
    if (process.getuid?.() === 0) fs.chmodSync(base, fs.statSync(base).mode | 0o011);
    for (const folder of [dir, logsDir]) makePrivate(folder);
    fs.mkdirSync(uploadsDir, { recursive: true, mode: 0o700 });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Refusal(
      `Cannot keep the shop's files in ${dir}: ${why}. FAIRLEAD_DATA_DIR=<folder> names another place.`,
    );
  }
  return { dir, uploadsDir, uploadsAreOurs: given === undefined, logsDir };
}

/** A secret of this shop: made once, readable by this account alone, never printed. */
export function keptSecret(state: State, name: string): string {
  const file = path.join(state.dir, name);
  if (fs.existsSync(file)) {
    const found = fs.readFileSync(file, 'utf8').trim();
    if (found.length >= 32) return found;
  }
  const made = randomBytes(32).toString('base64url');
  const temporary = `${file}.${process.pid}`;
  fs.writeFileSync(temporary, `${made}\n`, { mode: 0o600 });
  fs.renameSync(temporary, file);
  return made;
}
