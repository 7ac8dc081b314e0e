import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { afterEach, describe, expect, it } from 'vitest';
import { defaultDataDir, type Embedded, startEmbedded } from '../src/embedded.ts';
import { isAlive, processesIn, readPidFile } from '../src/embedded-process.ts';

const asRoot = process.getuid?.() === 0;
const onLinux = process.platform === 'linux';
const below = asRoot ? '/var/tmp' : os.tmpdir();
const folders: string[] = [];
const running: Embedded[] = [];
const children: ChildProcess[] = [];

afterEach(async () => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
  for (const server of running.splice(0)) await server.stop();
  for (const folder of folders.splice(0)) fs.rmSync(folder, { recursive: true, force: true });
});

const newFolder = (): string => {
  const folder = fs.mkdtempSync(path.join(below, 'fairlead-embedded-'));
  folders.push(folder);
  return folder;
};

/** A quick server: the durable one differs in initdb's authentication and in fsync alone. */
async function start(dataDir: string, fast = true): Promise<Embedded> {
  const server = await startEmbedded({ dataDir, fast });
  running.push(server);
  return server;
}

async function ask(url: string, sql: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  client.on('error', () => {});
  await client.connect();
  try {
    return (await client.query(sql)).rows;
  } finally {
    await client.end();
  }
}

/** Another program that starts the server and waits: prints what it got as one line of JSON. */
function startElsewhere(
  dataDir: string,
  account: { uid?: number; gid?: number } = {},
): { child: ChildProcess; told: Promise<{ port: number; reused: boolean; pid: number }> } {
  const module = fileURLToPath(new URL('../src/embedded.ts', import.meta.url));
  const code = `
    import { startEmbedded } from ${JSON.stringify(module)};
    const { port, reused, pid, stop } = await startEmbedded({ dataDir: ${JSON.stringify(dataDir)}, fast: true });
    console.log(JSON.stringify({ port, reused, pid }));
    process.stdin.resume();
    process.stdin.once('end', async () => { await stop(); process.exit(0); });`;
  const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', code], {
    ...account,
    cwd: fileURLToPath(new URL('../../../', import.meta.url)),
    env: { ...process.env, HOME: below },
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  children.push(child);
  const told = new Promise<{ port: number; reused: boolean; pid: number }>((resolve, reject) => {
    let out = '';
    let complaint = '';
    child.stdout?.on('data', (data) => {
      out += data;
      if (out.includes('\n')) resolve(JSON.parse(out));
    });
    child.stderr?.on('data', (data) => {
      complaint += data;
    });
    child.once('exit', (code) => reject(new Error(`ended with ${code}: ${complaint}`)));
  });
  return { child, told };
}

async function until(what: () => boolean | Promise<boolean>): Promise<void> {
  const begun = Date.now();
  while (!(await what())) {
    if (Date.now() - begun > 20_000) throw new Error('Not reached within 20 s');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

describe('the embedded server', () => {
  it('starts, is joined by a second start, stops, and comes back with its data on the same port', async () => {
    const dataDir = newFolder();
    const first = await start(dataDir);
    expect(first.reused).toBe(false);
    await ask(first.adminUrl, 'create table kept as select 1 as id');

    const second = await start(dataDir);
    expect(second).toMatchObject({ reused: true, port: first.port, pid: first.pid });
    await second.stop();
    expect(isAlive(first.pid)).toBe(true);

    await first.stop();
    expect(isAlive(first.pid)).toBe(false);
    expect(fs.existsSync(path.join(dataDir, '18', 'postmaster.pid'))).toBe(false);

    const again = await start(dataDir);
    expect(again).toMatchObject({ reused: false, port: first.port });
    expect(await ask(again.adminUrl, 'select id from kept')).toEqual([{ id: 1 }]);
  });

  it('is PostgreSQL 18 with C.UTF-8 of its own, nothing preloaded, heard on this machine alone', async () => {
    const server = await start(newFolder());
    const rows = await ask(
      server.adminUrl,
      `select current_setting('server_version_num')::int / 10000 as major, datlocprovider as provider, datlocale as locale,
              current_setting('server_encoding') as encoding, current_setting('shared_preload_libraries') as preloaded,
              current_setting('listen_addresses') as hears, current_setting('unix_socket_directories') as sockets
         from pg_database where datname = current_database()`,
    );
    expect(rows).toEqual([
      {
        major: 18,
        provider: 'b',
        locale: 'C.UTF-8',
        encoding: 'UTF8',
        preloaded: '',
        hears: '127.0.0.1',
        sockets: '',
      },
    ]);
  });

  it('asks other people of this machine for a password that only its directory holds', async () => {
    const server = await start(newFolder(), false);
    const url = new URL(server.adminUrl);
    expect(url.password).toMatch(/^[0-9a-f]{48}$/);
    url.password = 'guess';
    await expect(ask(url.href, 'select 1')).rejects.toThrow(/password authentication failed/);
    url.password = '';
    await expect(ask(url.href, 'select 1')).rejects.toThrow(/password/);
    expect(await ask(server.adminUrl, 'show fsync')).toEqual([{ fsync: 'on' }]);
  });

  it('takes another port when the last one is in use', async () => {
    const dataDir = newFolder();
    const first = await start(dataDir);
    await first.stop();
    const intruder = await import('node:net').then((net) => net.createServer());
    await new Promise<void>((resolve) => intruder.listen(first.port, '127.0.0.1', resolve));
    try {
      const second = await start(dataDir);
      expect(second.port).not.toBe(first.port);
      expect(await ask(second.adminUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
      await second.stop();
      await expect(startEmbedded({ dataDir, fast: true, port: first.port })).rejects.toThrow(
        /did not start .* on port \d+/,
      );
    } finally {
      intruder.close();
    }
  });

  it('of several programs that start it at once, one does and the others join', async () => {
    const dataDir = newFolder();
    const told = await Promise.all([1, 2, 3].map(() => startElsewhere(dataDir).told));
    expect(told.filter((each) => !each.reused)).toHaveLength(1);
    expect(new Set(told.map((each) => each.pid)).size).toBe(1);
    expect(fs.readdirSync(dataDir).filter((name) => /part|secret/.test(name))).toEqual([]);
    const server = told[0];
    for (const child of children) child.stdin?.end();
    await until(() => server !== undefined && !isAlive(server.pid));
  });
});

describe('after an accident', () => {
  it('the server killed: the next start recovers what was committed', async () => {
    // The durable server: the quick one may lose the last moments before it is killed, and says so.
    const dataDir = newFolder();
    const first = await start(dataDir, false);
    await ask(first.adminUrl, 'create table kept as select 1 as id');
    process.kill(first.pid, 'SIGKILL');
    const second = await start(dataDir, false);
    expect(second.reused).toBe(false);
    expect(second.pid).not.toBe(first.pid);
    expect(await ask(second.adminUrl, 'select id from kept')).toEqual([{ id: 1 }]);
  });

  it.runIf(onLinux)(
    'the server killed while one of its processes is deep in a computation: that one is ended first',
    async () => {
      const dataDir = newFolder();
      const first = await start(dataDir);
      const client = new pg.Client({ connectionString: first.adminUrl });
      client.on('error', () => {});
      await client.connect();
      const busy = client
        .query('select count(*) from generate_series(1, 4000000000) a where a % 7 = 8')
        .catch(() => 'broken off');
      await until(async () => {
        const rows = await ask(
          first.adminUrl,
          `select from pg_stat_activity where state = 'active' and query like '%4000000000%' and pid <> pg_backend_pid()`,
        );
        return rows.length === 1;
      });
      process.kill(first.pid, 'SIGKILL');
      await until(() => !isAlive(first.pid) && processesIn(path.join(dataDir, '18')).length === 1);
      const second = await start(dataDir);
      expect(await busy).toBe('broken off');
      expect(processesIn(path.join(dataDir, '18'))).toContain(second.pid);
      expect(await ask(second.adminUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    },
  );

  it('the starter killed: the next start takes the server over and ends it when it stops', async () => {
    const dataDir = newFolder();
    const { child, told } = startElsewhere(dataDir);
    const first = await told;
    child.kill('SIGKILL');
    await until(() => child.pid !== undefined && !isAlive(child.pid));
    expect(isAlive(first.pid)).toBe(true);
    const second = await start(dataDir);
    expect(second).toMatchObject({ reused: true, pid: first.pid });
    await second.stop();
    expect(fs.existsSync(path.join(dataDir, '18', 'postmaster.pid'))).toBe(false);
  });

  it('a note of a server that is dead, or whose number another program or another server has: started anew', async () => {
    const dataDir = newFolder();
    const other = await start(newFolder());
    const first = await start(dataDir);
    await first.stop();
    const dead = spawn(process.execPath, ['-e', '']);
    await new Promise((resolve) => dead.once('exit', resolve));
    for (const pid of [dead.pid, process.pid, other.pid]) {
      const note = path.join(dataDir, '18', 'postmaster.pid');
      fs.writeFileSync(
        note,
        `${pid}\n${path.join(dataDir, '18')}\n1700000000\n${first.port}\n\n127.0.0.1\n  1234 5678\nready   \n`,
      );
      const server = await start(dataDir);
      expect(server.reused).toBe(false);
      expect(readPidFile(path.join(dataDir, '18'))?.pid).toBe(server.pid);
      await server.stop();
    }
    expect(isAlive(other.pid)).toBe(true);
  });

  it('a half-made database of a killed start is cleared away and made again', async () => {
    const dataDir = newFolder();
    const dead = spawn(process.execPath, ['-e', '']);
    await new Promise((resolve) => dead.once('exit', resolve));
    const half = path.join(dataDir, `18.part-${dead.pid}-0a0b0c0d`);
    fs.mkdirSync(half);
    fs.writeFileSync(path.join(half, 'PG_VERSION'), '18\n');
    fs.writeFileSync(path.join(dataDir, `18.secret-${dead.pid}-0a0b0c0d`), 'x');
    const server = await start(dataDir);
    expect(await ask(server.adminUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    expect(fs.readdirSync(dataDir).filter((name) => /part|secret/.test(name))).toEqual([]);
  });

  it('what PostgreSQL itself says is in the error when it cannot start', async () => {
    const dataDir = newFolder();
    const server = await start(dataDir);
    await server.stop();
    fs.appendFileSync(path.join(dataDir, '18', 'postgresql.conf'), '\nno_such_setting = 1\n');
    await expect(startEmbedded({ dataDir, fast: true })).rejects.toThrow(/no_such_setting/);
  });
});

describe('where it keeps its data', () => {
  it.runIf(asRoot)('runs for a plain user too, below a directory of his own', async () => {
    const dataDir = newFolder();
    fs.chownSync(dataDir, 65534, 65534);
    const { child, told } = startElsewhere(dataDir, { uid: 65534, gid: 65534 });
    const server = await told;
    expect(server.reused).toBe(false);
    expect(fs.statSync(path.join(dataDir, '18')).uid).toBe(65534);
    child.stdin?.end();
    await until(() => !isAlive(server.pid));
  });

  it.runIf(asRoot)("as root refuses a place that the server's account cannot reach", async () => {
    const closed = newFolder();
    fs.chmodSync(closed, 0o700);
    await expect(startEmbedded({ dataDir: path.join(closed, 'data') })).rejects.toThrow(
      /as root the server runs as user \d+, who cannot write there/,
    );
  });

  it.runIf(asRoot)('refuses a directory that somebody else laid out in its place', async () => {
    const planted = newFolder();
    fs.chownSync(planted, 54321, 54321);
    await expect(startEmbedded({ dataDir: planted })).rejects.toThrow(
      /is a link or belongs to another user \(54321\)/,
    );
    const target = newFolder();
    fs.symlinkSync(target, path.join(target, 'link'));
    await expect(startEmbedded({ dataDir: path.join(target, 'link') })).rejects.toThrow(
      /is a link/,
    );
  });

  it("each checkout has its own, and root's is outside the checkout", () => {
    const one = newFolder();
    const two = newFolder();
    expect(defaultDataDir(one)).toBe(defaultDataDir(`${one}/`));
    expect(defaultDataDir(one)).not.toBe(defaultDataDir(two));
    if (asRoot)
      expect(defaultDataDir(one)).toMatch(/^\/var\/tmp\/fairlead-postgres-0-[0-9a-f]{12}$/);
    else expect(defaultDataDir(one)).toBe(path.join(one, '.data', 'postgres'));
  });
});
