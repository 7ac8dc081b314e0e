import { type ChildProcess, spawn } from 'node:child_process';
import pg from 'pg';
import { freeLoopbackPort } from '../../../scripts/ports.ts';
import { tsxArguments } from '../../../scripts/run-tool.ts';
import type { TestApi } from '../api.ts';

/** The API as a process of its own, that may be killed. */
export interface MortalServer {
  port: number;
  /** Rejects where it ends without having been killed. */
  falls: Promise<never>;
  /** SIGKILL, whatever it is at; then anew on the same port. */
  killAndRestart(): Promise<void>;
  /** The database ends every connection of the application, whatever it is at. */
  dropConnections(): Promise<number>;
  stop(): Promise<void>;
}

export async function startMortalServer(api: TestApi): Promise<MortalServer> {
  const port = await freeLoopbackPort();
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  let fell: (error: Error) => void = () => undefined;
  const falls = new Promise<never>((_, reject) => (fell = reject));
  falls.catch(() => undefined);
  let child: ChildProcess;
  let ended: Promise<void>;
  const start = async () => {
    child = spawn(process.execPath, tsxArguments('apps/api/src/server.ts'), {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: {
        PATH: process.env.PATH,
        HOME: process.env.HOME,
        NODE_ENV: 'production',
        LOG_LEVEL: 'silent',
        DATABASE_URL: api.database.appUrl,
        UPLOADS_DIR: api.uploadsDir,
        SIGN_IN_SECRET: api.secret,
        WEB_ORIGIN: 'http://shop.test',
        HOST: '127.0.0.1',
        PORT: String(port),
      },
    });
    let complaint = '';
    const mine = child;
    mine.stderr?.setEncoding('utf8').on('data', (text: string) => (complaint += text));
    ended = new Promise((resolve) => {
      mine.once('exit', (code) => {
        // Nobody killed it: what it said of it is the finding.
        if (code !== null) fell(new Error(`The API ended by itself with ${code}: ${complaint}`));
        resolve();
      });
    });
    await untilReady(`http://127.0.0.1:${port}/readyz`, child);
  };
  const kill = async () => {
    child.kill('SIGKILL');
    await ended;
  };
  await start();
  return {
    port,
    falls,
    killAndRestart: async () => {
      await kill();
      await start();
    },
    dropConnections: async () => {
      const { rowCount } = await admin.query(
        `SELECT pg_terminate_backend(pid) FROM pg_stat_activity
         WHERE datname = current_database() AND pid <> pg_backend_pid() AND usename <> current_user`,
      );
      return rowCount ?? 0;
    },
    stop: async () => {
      await kill();
      await admin.end();
    },
  };
}

async function untilReady(address: string, child: ChildProcess): Promise<void> {
  for (let tries = 0; tries < 2400; tries += 1) {
    if (child.exitCode !== null) throw new Error(`The API ended with ${child.exitCode}`);
    const answer = await fetch(address).catch(() => null);
    if (answer?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error('The API was not ready within two minutes');
}
