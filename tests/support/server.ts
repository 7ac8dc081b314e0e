import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import http from 'node:http';
import os from 'node:os';
import path from 'node:path';
import { type EmbeddedOptions, startDebian15, startEmbedded } from '@fairlead/database/embedded';
import { isAlive } from '@fairlead/database/embedded-process';
import { prepareEmbedded, provision } from '@fairlead/database/provision';
import pg from 'pg';

/** A PostgreSQL for one test run, with the migrated database that every test copies. */
export type TestServer = {
  kind: 'container' | 'embedded' | 'debian15';
  adminUrl: string;
  template: string;
};

/** The database that tests copy; nobody may connect to it, so that copying never waits. */
const template = 'fairlead_template';

/** Jobs that tests of the queue may ask for. */
const taskNames = ['probe', 'falter'];

type Started = { kind: TestServer['kind']; adminUrl: string; stop(): Promise<void> };

/**
 * Starts the server: a container where a Docker engine answers within 3 s, else the embedded PostgreSQL.
 * FAIRLEAD_TEST_POSTGRES=debian15 | embedded | container asks for one of them.
 */
async function startServer(): Promise<Started> {
  const asked = process.env.FAIRLEAD_TEST_POSTGRES ?? '';
  if (!['', 'debian15', 'embedded', 'container'].includes(asked)) {
    throw new Error(
      `FAIRLEAD_TEST_POSTGRES is "${asked}"; it may be debian15, embedded, container or nothing.`,
    );
  }
  if (asked === 'debian15') return startInTemporary('debian15', startDebian15);
  if (asked === 'container') return startContainer();
  if (asked === '' && (await engineAnswers())) {
    try {
      return await startContainer();
    } catch {
      // An engine without the image and without a network to fetch it is as good as none.
    }
  }
  return startInTemporary('embedded', startEmbedded);
}

async function startInTemporary(
  kind: 'embedded' | 'debian15',
  start: (options: EmbeddedOptions) => ReturnType<typeof startEmbedded>,
): Promise<Started> {
  const below = process.getuid?.() === 0 ? '/var/tmp' : os.tmpdir();
  const dataDir = fs.mkdtempSync(path.join(below, 'fairlead-test-'));
  const server = await start({ dataDir, fast: true });
  const remove = () => fs.rmSync(dataDir, { recursive: true, force: true, maxRetries: 5 });
  const away = onBreakingOff(() => {
    if (isAlive(server.pid)) process.kill(server.pid, 'SIGQUIT');
    remove();
  });
  return {
    kind,
    adminUrl: server.adminUrl,
    stop: async () => {
      await server.stop();
      remove();
      away();
    },
  };
}

/**
 * Does something when the run is broken off: the server stands outside of this process's group, and would be left
 * behind with its folder. Answers with what undoes it.
 */
function onBreakingOff(work: () => void): () => void {
  const signals = [
    ['SIGHUP', 129],
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const;
  process.once('exit', work);
  const undo = signals.map(([signal, code]) => {
    const leave = () => process.exit(code);
    process.once(signal, leave);
    return () => void process.off(signal, leave);
  });
  return () => {
    process.off('exit', work);
    for (const each of undo) each();
  };
}

/** Asks the engine's socket directly: the client library may hang on one that never answers. */
function engineAnswers(): Promise<boolean> {
  const host = process.env.DOCKER_HOST ?? 'unix:///var/run/docker.sock';
  if (host.startsWith('unix://') && !fs.existsSync(host.slice(7))) return Promise.resolve(false);
  const target = host.startsWith('unix://')
    ? { socketPath: host.slice(7) }
    : { host: new URL(host).hostname, port: new URL(host).port };
  return new Promise((resolve) => {
    const request = http.get({ ...target, path: '/_ping', timeout: 3_000 }, (response) => {
      response.resume();
      resolve(response.statusCode === 200);
    });
    request.on('timeout', () => request.destroy());
    request.on('error', () => resolve(false));
  });
}

async function startContainer(): Promise<Started> {
  const { GenericContainer, Wait } = await import('testcontainers');
  const password = randomBytes(12).toString('hex');
  const container = await new GenericContainer('postgres:18')
    .withEnvironment({ POSTGRES_PASSWORD: password })
    .withCommand(['-c', 'fsync=off', '-c', 'synchronous_commit=off', '-c', 'full_page_writes=off'])
    .withExposedPorts(5432)
    .withWaitStrategy(Wait.forLogMessage(/ready to accept connections/, 2))
    .withStartupTimeout(60_000)
    .start();
  return {
    kind: 'container',
    adminUrl: `postgresql://postgres:${password}@${container.getHost()}:${container.getMappedPort(5432)}/postgres`,
    stop: async () => {
      await container.stop();
    },
  };
}

/** Starts the server and migrates the template: once a test run. */
export async function testServer(): Promise<TestServer & { stop(): Promise<void> }> {
  const server = await startServer();
  try {
    const urls = await prepareEmbedded(server.adminUrl, template);
    await provision({ ...urls, taskNames });
    const client = new pg.Client({ connectionString: server.adminUrl });
    await client.connect();
    await client.query(`alter database ${template} with allow_connections false`);
    await client.end();
  } catch (error) {
    await server.stop();
    throw error;
  }
  return { ...server, template };
}
