import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import {
  type Binaries,
  debianPostgres,
  embeddedBinaries,
  type ServerAccount,
  serverAccount,
} from './embedded-binaries.ts';
import { type Layout, layout, makeCluster, prepareHome } from './embedded-cluster.ts';
import {
  birthOf,
  freePort,
  isAlive,
  isFree,
  isPostgres,
  pause,
  readPidFile,
  waitForOrphans,
} from './embedded-process.ts';

export { debianPostgres } from './embedded-binaries.ts';
export { defaultDataDir } from './embedded-cluster.ts';

/** How to start: the directory that holds everything of this server, and optionally its port. */
export type EmbeddedOptions = {
  dataDir: string;
  /** Without it the port of the last start is used again while it is free. */
  port?: number;
  /** For tests only: no promise to survive a power cut, and no password asked on 127.0.0.1. */
  fast?: boolean;
};

/** A running server. `stop` ends it, unless another living program had started it. */
export type Embedded = {
  port: number;
  adminUrl: string;
  /** True when the server was already running. */
  reused: boolean;
  pid: number;
  stop(): Promise<void>;
};

/** Starts the embedded PostgreSQL 18 in that directory, or joins the one that already runs there. */
export function startEmbedded(options: EmbeddedOptions): Promise<Embedded> {
  return start(options, embeddedBinaries());
}

/**
 * Starts Debian's PostgreSQL 15 in the same manner.
 *
 * @throws Error where the package postgresql-15 is not installed
 */
export function startDebian15(options: EmbeddedOptions): Promise<Embedded> {
  const bin = debianPostgres();
  if (!bin) {
    throw new Error(
      "Cannot start Debian's PostgreSQL 15: /usr/lib/postgresql/15/bin/initdb is not there. Install the package postgresql-15.",
    );
  }
  return start(options, { bin, major: 15 });
}

async function start(options: EmbeddedOptions, binaries: Binaries): Promise<Embedded> {
  const place = layout(options.dataDir, binaries.major);
  const account = serverAccount();
  prepareHome(place, account);
  if (!fs.existsSync(place.data)) makeCluster(place, binaries, account, options.fast ?? false);

  const deadline = Date.now() + 15_000;
  for (;;) {
    const running = await joinRunning(place);
    if (running) return running;
    await waitForOrphans(place.data);
    try {
      return await launch(place, binaries, account, options);
    } catch (error) {
      // Two programs may start the same server at once, a port may be lost between choosing and using it, and a killed
      // server's last process may still hold its shared memory: look again.
      const said = error instanceof Error ? error.message : '';
      const passing =
        /lock file|shared memory block/i.test(said) ||
        (options.port === undefined && /could not bind/i.test(said));
      if (!passing || Date.now() > deadline) throw error;
      await pause(200);
    }
  }
}

const adminUrlOf = (place: Layout, port: number): string =>
  `postgresql://postgres:${fs.readFileSync(place.secret, 'utf8')}@127.0.0.1:${port}/postgres`;

/** Asks the server that answers on that port whether it is ours. */
async function servesOurData(place: Layout, port: number): Promise<boolean> {
  const client = new pg.Client({
    connectionString: adminUrlOf(place, port),
    connectionTimeoutMillis: 3_000,
  });
  client.on('error', () => {});
  try {
    await client.connect();
    const answer = await client.query<{ data_directory: string }>('show data_directory');
    const served = answer.rows[0]?.data_directory;
    return served !== undefined && path.resolve(served) === path.resolve(place.data);
  } catch {
    return false;
  } finally {
    await client.end().catch(() => {});
  }
}

/** Joins a server that is running or just coming up, and clears away the traces of one that is not. */
async function joinRunning(place: Layout): Promise<Embedded | null> {
  const deadline = Date.now() + 60_000;
  for (;;) {
    const noted = readPidFile(place.data);
    if (!noted) return null;
    if (!isAlive(noted.pid)) return null; // PostgreSQL itself steps over the file of a dead process.
    if (!isPostgres(noted.pid, place.data)) {
      // The number has gone to another program, and PostgreSQL would take that for a running server.
      await waitForOrphans(place.data);
      fs.rmSync(path.join(place.data, 'postmaster.pid'), { force: true });
      return null;
    }
    if (noted.ready && (await servesOurData(place, noted.port))) {
      const adopted = !ownerLives(place);
      if (adopted) writeOwner(place);
      return {
        port: noted.port,
        adminUrl: adminUrlOf(place, noted.port),
        reused: true,
        pid: noted.pid,
        // A server whose starter was killed is taken over, so that it does not outlive us too.
        stop: () => (adopted ? stopServer(place, noted.pid) : Promise.resolve()),
      };
    }
    if (Date.now() > deadline) {
      throw new Error(
        `Cannot use PostgreSQL in ${place.data}: process ${noted.pid} holds it and did not become ready within 60 s. Its log is ${place.log}`,
      );
    }
    await pause(100);
  }
}

function writeOwner(place: Layout): void {
  fs.writeFileSync(place.owner, `${process.pid} ${birthOf(process.pid)}`);
}

function ownerLives(place: Layout): boolean {
  try {
    const [pid, birth] = fs.readFileSync(place.owner, 'utf8').split(' ');
    return isAlive(Number(pid)) && birthOf(Number(pid)) === birth;
  } catch {
    return false;
  }
}

async function choosePort(place: Layout, asked: number | undefined): Promise<number> {
  if (asked !== undefined) return asked;
  const last = fs.existsSync(place.port) ? Number(fs.readFileSync(place.port, 'utf8')) : 0;
  return Number.isInteger(last) && last > 0 && (await isFree(last)) ? last : freePort();
}

async function launch(
  place: Layout,
  binaries: Binaries,
  account: ServerAccount,
  options: EmbeddedOptions,
): Promise<Embedded> {
  const port = await choosePort(place, options.port);
  const settings = {
    listen_addresses: '127.0.0.1',
    // No socket file: its path may be too long, and the port is enough.
    unix_socket_directories: '',
    shared_preload_libraries: '',
    log_min_messages: 'warning',
    // A failed statement may hold personal data; the API logs what matters under an id of its own.
    log_min_error_statement: 'panic',
    ...(options.fast ? { fsync: 'off', synchronous_commit: 'off', full_page_writes: 'off' } : {}),
  };
  const log = fs.openSync(place.log, 'w', 0o600);
  // In a process group of its own: a Ctrl-C in the terminal must reach us first, so that the API ends before its database.
  const child = spawn(
    path.join(binaries.bin, 'postgres'),
    [
      ...['-D', place.data, '-p', String(port)],
      ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`]),
    ],
    { ...account, cwd: '/', detached: true, stdio: ['ignore', log, log] },
  );
  fs.closeSync(log);
  let ended: string | null = null;
  child.once('error', (error) => {
    ended = error.message;
  });
  child.once('exit', (code, signal) => {
    ended = `it ended with ${signal ?? `code ${code}`}`;
  });
  child.unref();

  const deadline = Date.now() + 60_000;
  for (;;) {
    const noted = readPidFile(place.data);
    if (noted?.ready && noted.pid === child.pid) break;
    if (ended !== null || Date.now() > deadline) {
      const said = fs.readFileSync(place.log, 'utf8').slice(-4_000).trim();
      throw new Error(
        `PostgreSQL did not start in ${place.data} on port ${port}: ${ended ?? 'not ready after 60 s'}.\n${said}`,
      );
    }
    await pause(20);
  }
  const { pid } = child;
  if (pid === undefined) throw new Error('The system gave the server no process number');
  writeOwner(place);
  fs.writeFileSync(place.port, String(port));
  return {
    port,
    adminUrl: adminUrlOf(place, port),
    reused: false,
    pid,
    stop: () => stopServer(place, pid),
  };
}

/** Fast shutdown: open transactions are rolled back, connections ended, everything written. */
async function stopServer(place: Layout, pid: number): Promise<void> {
  const noted = readPidFile(place.data);
  if (noted?.pid !== pid || !isPostgres(pid, place.data)) return;
  process.kill(pid, 'SIGINT');
  const deadline = Date.now() + 30_000;
  while (isAlive(pid) && readPidFile(place.data)?.pid === pid) {
    if (Date.now() > deadline) {
      throw new Error(
        `PostgreSQL (process ${pid}) did not stop within 30 s. Its log is ${place.log}`,
      );
    }
    await pause(20);
  }
  // The file goes a moment before the process. Where nobody reaps what has ended, the number stays: so not for ever.
  const gone = Date.now() + 2000;
  while (isAlive(pid) && Date.now() < gone) await pause(10);
  fs.rmSync(place.owner, { force: true });
}
