import { spawnSync } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type { Binaries, ServerAccount } from './embedded-binaries.ts';
import { isAlive } from './embedded-process.ts';

/** Everything of one server below its directory: the database files, a note on the owner, the log. */
export function layout(dataDir: string, major: number) {
  const home = path.resolve(dataDir);
  return {
    home,
    data: path.join(home, String(major)),
    secret: path.join(home, String(major), 'fairlead-secret'),
    port: path.join(home, `${major}.port`),
    owner: path.join(home, `${major}.owner`),
    log: path.join(home, `${major}.log`),
  };
}
/** The paths of one server. */
export type Layout = ReturnType<typeof layout>;

/**
 * Where the embedded server of a checkout keeps its data: `<root>/.data/postgres` when that works, otherwise (root, a
 * read-only checkout, a disk without access rights) a directory of the system's that is named after the checkout.
 */
export function defaultDataDir(root: string): string {
  const checkout = path.resolve(root);
  const user = process.getuid?.() ?? os.userInfo().username;
  const mark = createHash('sha256').update(`${checkout}\0${user}`).digest('hex').slice(0, 12);
  const elsewhere = (below: string) => path.join(below, `fairlead-postgres-${user}-${mark}`);
  if (process.getuid?.() === 0) return elsewhere('/var/tmp');
  const inside = path.join(checkout, '.data', 'postgres');
  try {
    fs.mkdirSync(inside, { recursive: true, mode: 0o700 });
    fs.chmodSync(inside, 0o700);
    // initdb insists on a directory that only its owner may enter; some mounted disks cannot promise that.
    if (process.platform === 'win32' || (fs.statSync(inside).mode & 0o077) === 0) return inside;
  } catch {
    // Not writable: fall through.
  }
  return elsewhere(os.tmpdir());
}

/** Makes the server's directory, owned by whoever runs the server. */
export function prepareHome(place: Layout, account: ServerAccount): void {
  fs.mkdirSync(place.home, { recursive: true, mode: 0o700 });
  // Places such as /var/tmp are open to all: a directory that somebody else laid out in our stead is a trap.
  const found = fs.lstatSync(place.home);
  const trusted = [process.getuid?.(), account.uid];
  if (!found.isDirectory() || (process.platform !== 'win32' && !trusted.includes(found.uid))) {
    throw new Error(
      `Cannot keep the database in ${place.home}: that is a link or belongs to another user (${found.uid}). Remove it or choose another directory.`,
    );
  }
  if (account.uid === undefined || account.gid === undefined) return;
  if (found.uid === 0) fs.chownSync(place.home, account.uid, account.gid);
  const reach = spawnSync('/bin/sh', ['-c', 'cd "$0" && test -w .', place.home], {
    ...account,
    cwd: '/',
  });
  if (reach.status !== 0) {
    throw new Error(
      `Cannot keep the database in ${place.home}: as root the server runs as user ${account.uid}, who cannot write there. Choose a directory below /var/tmp or /var/lib.`,
    );
  }
}

/**
 * initdb works in a directory of its own, which becomes the real one in a single rename: whatever was killed half-way
 * is never taken for a database.
 */
export function makeCluster(
  place: Layout,
  binaries: Binaries,
  account: ServerAccount,
  fast: boolean,
): void {
  const partKind = `${binaries.major}.part`;
  const secretKind = `${binaries.major}.secret`;
  for (const name of fs.readdirSync(place.home)) {
    const [kind, pid] = name.split('-');
    if ((kind === partKind || kind === secretKind) && !isAlive(Number(pid))) {
      fs.rmSync(path.join(place.home, name), { recursive: true, force: true });
    }
  }
  const mine = `${process.pid}-${randomBytes(4).toString('hex')}`;
  const part = path.join(place.home, `${partKind}-${mine}`);
  const secret = randomBytes(24).toString('hex');
  const secretPart = path.join(place.home, `${secretKind}-${mine}`);
  fs.writeFileSync(secretPart, secret, { mode: 0o600 });
  if (account.uid !== undefined && account.gid !== undefined) {
    fs.chownSync(secretPart, account.uid, account.gid);
  }
  // The C.UTF-8 that PostgreSQL brings itself sorts alike on every machine; 15 has no such provider yet.
  const locale =
    binaries.major >= 17
      ? ['--locale-provider=builtin', '--builtin-locale=C.UTF-8', '--locale=C', '--no-instructions']
      : ['--locale=C.UTF-8', '--no-instructions'];
  const done = spawnSync(
    path.join(binaries.bin, 'initdb'),
    [
      ...['-D', part, '-U', 'postgres', '--encoding=UTF8', ...locale],
      ...(fast ? ['--auth=trust', '--no-sync'] : ['--auth=scram-sha-256', '--pwfile', secretPart]),
    ],
    { ...account, cwd: '/', encoding: 'utf8' },
  );
  if (done.status !== 0) {
    fs.rmSync(part, { recursive: true, force: true });
    fs.rmSync(secretPart, { force: true });
    throw new Error(`initdb could not make a database in ${place.home}:\n${done.stderr}`);
  }
  fs.renameSync(secretPart, path.join(part, 'fairlead-secret'));
  try {
    fs.renameSync(part, place.data);
  } catch (error) {
    fs.rmSync(part, { recursive: true, force: true });
    // Another program made it meanwhile.
    if (!fs.existsSync(place.data)) throw error;
  }
}
