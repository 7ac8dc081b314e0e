import path from 'node:path';
import { untilHealthy } from './healthy.ts';
import { freeLoopbackPort } from './ports.ts';
import { type ServerProcess, type Supervised, supervise } from './processes.ts';
import { say } from './progress.ts';
import { type RunningChild, runningChild } from './running.ts';
import type { ServerUrls } from './start-options.ts';
import { keptSecret, type State } from './state.ts';

export interface Servers {
  /** Resolves when the API is ready and the web origin serves a page. */
  ready(): Promise<void>;
  /** Stops web, API and worker, in the order in which requests travel. */
  stop(): Promise<void>;
}

/**
 * V8 lets a heap grow to four times what lives in it before it tidies up, but at most to twice where the most it may
 * take is under 2 GB. The worker's long jobs leave much behind, and nobody waits for them by the millisecond.
 */
const tidyHeap = ['--max-old-space-size=2000'];

/** Starts the three server processes. The API listens on the loopback address only: the web origin is the one address. */
export async function startServers(options: {
  state: State;
  urls: ServerUrls;
  host: string;
  port: number;
  address: string;
  /** The file of the web server, as serveFrom of build.ts answers. */
  webServer: string;
  /** Told the processes whenever they change. */
  note: (children: readonly RunningChild[]) => void;
}): Promise<Servers> {
  const { state, urls, host, port, address, webServer, note } = options;
  const apiPort = await freeLoopbackPort();
  const apiOrigin = `http://127.0.0.1:${apiPort}`;
  const children = new Map<string, RunningChild>();

  const launch = (
    name: string,
    file: string,
    env: Record<string, string>,
    flags: readonly string[] = [],
  ): Supervised => {
    const server: ServerProcess = {
      name,
      file,
      flags,
      env: { NODE_ENV: 'production', ...env },
      typescript: file.endsWith('.ts'),
      logFile: path.join(state.logsDir, `${name}.log`),
      started: (pid) => {
        children.set(name, runningChild(name, pid));
        note([...children.values()]);
      },
    };
    return supervise(server, say);
  };

  const shared = {
    DATABASE_URL: urls.appUrl,
    MIGRATOR_DATABASE_URL: '', // the running program never holds the owner's address
    WEB_ORIGIN: address,
    UPLOADS_DIR: state.uploadsDir,
    SIGN_IN_SECRET: process.env['SIGN_IN_SECRET'] || keptSecret(state, 'sign-in-secret'),
  };
  const api = launch('API', 'apps/api/src/server.ts', {
    ...shared,
    PORT: String(apiPort),
    HOST: '127.0.0.1',
  });
  const worker = launch('worker', 'apps/api/src/worker.ts', { ...shared, PORT: '0' }, tidyHeap);
  const web = launch('web', webServer, {
    PORT: String(port),
    HOSTNAME: host,
    API_ORIGIN: apiOrigin,
    NEXT_TELEMETRY_DISABLED: '1',
    DATABASE_URL: '',
    MIGRATOR_DATABASE_URL: '',
    SIGN_IN_SECRET: '',
    SMTP_PASSWORD: '',
  });

  let stopped = false;
  const local = `http://${host === '0.0.0.0' ? '127.0.0.1' : host}:${port}`;
  return {
    ready: async () => {
      const limit = 90_000;
      await Promise.all([
        untilHealthy(`${apiOrigin}/readyz`, api, limit, () => stopped),
        untilHealthy(`${local}/`, web, limit, () => stopped),
      ]);
      // Once through the one address, as a browser will.
      await untilHealthy(`${local}/readyz`, web, 20_000, () => stopped);
    },
    stop: async () => {
      stopped = true;
      await web.stop();
      await Promise.all([api.stop(), worker.stop()]);
    },
  };
}
