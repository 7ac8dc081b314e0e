// npm start: from a fresh clone to a served page, one step after the other, and down again in order.
import path from 'node:path';
import { buildWeb, generate, serveFrom } from './build.ts';
import {
  type Database,
  deleteOwnDatabase,
  embeddedDataDir,
  loadDemoShop,
  provisionDatabase,
  recreateDatabase,
  type SignIn,
  startOwnDatabase,
} from './database.ts';
import { choosePort, portFromEnvironment } from './ports.ts';
import { Refusal, say, seconds, step } from './progress.ts';
import { stopTools } from './run-tool.ts';
import {
  awaitLeftovers,
  findRunning,
  forgetRunning,
  type RunningChild,
  writeRunning,
} from './running.ts';
import { startServers } from './servers.ts';
import {
  checkReset,
  readOptions,
  type ServerUrls,
  type StartOptions,
  serverUrls,
} from './start-options.ts';
import { openState, type State } from './state.ts';

const began = Date.now();
const undo: (() => Promise<void>)[] = [];
let stopping: Promise<void> | undefined;
let askedAt = 0;

/** Stops what was started, last first. Every way out comes through here. */
function stop(exitCode: number): Promise<void> {
  stopping ??= (async () => {
    stopTools();
    for (const one of undo.reverse()) {
      await one().catch((error: unknown) =>
        say(`While stopping: ${error instanceof Error ? error.message : String(error)}`),
      );
    }
    process.exit(exitCode);
  })();
  return stopping;
}

function onSignal(name: string): void {
  if (askedAt === 0) {
    askedAt = Date.now();
    say(`\nStopping (${name}) …`);
    void stop(0);
  } else if (Date.now() - askedAt > 2000) {
    // A Ctrl-C reaches us twice within moments, from the terminal and through npm; later ones are impatience.
    say('Still stopping; the database needs a few seconds to close its files.');
  }
}

async function openDatabase(
  state: State,
  options: StartOptions,
  external: ServerUrls | undefined,
): Promise<Database> {
  if (external) {
    if (options.reset)
      await step('emptying your database', () => recreateDatabase(external, state));
    return { urls: external, reused: true, stop: () => Promise.resolve() };
  }
  if (options.reset)
    await step('returning the demo to its first day', () => deleteOwnDatabase(state));
  return step(
    'database',
    () => startOwnDatabase({ keep: true }),
    ({ reused }) => (reused ? 'was still running' : 'started'),
  );
}

async function prepare(state: State, options: StartOptions, external: ServerUrls | undefined) {
  const database = await openDatabase(state, options, external);
  undo.push(() => database.stop());
  await step(
    'tables and rules',
    () => provisionDatabase(database.urls),
    (applied) => (applied.length > 0 ? `${applied.length} migrations applied` : 'up to date'),
  );
  const demo = await step(
    'demo shop',
    () => loadDemoShop(database.urls, state.uploadsDir),
    ({ loaded }) => (loaded ? 'loaded' : 'already there'),
  );
  return { urls: database.urls, signIns: demo.signIns };
}

function announce(address: string, signIns: readonly SignIn[]): void {
  say(`\nFairlead is ready at ${address}  (after ${seconds(Date.now() - began)})`);
  if (signIns.length > 0) {
    const width = Math.max(...signIns.map(({ role }) => role.length));
    const widest = Math.max(...signIns.map(({ email }) => email.length));
    say('\nDemo sign-ins (an invented shop; not for real work):');
    for (const { role, email, password } of signIns) {
      say(`  ${role.padEnd(width)}  ${email.padEnd(widest)}  ${password}`);
    }
  }
  say('\nCtrl-C stops everything. "npm start -- --reset" returns the demo to its first day.');
}

async function main(): Promise<void> {
  const options = readOptions(process.argv.slice(2));
  const external = serverUrls(process.env);
  checkReset(options, external);
  const asked = portFromEnvironment(process.env['PORT']);
  const state = openState(embeddedDataDir(), external?.appUrl);

  const other = findRunning(state.dir);
  if (other) {
    const where = other.address || 'an address that it prints when it is ready';
    const known = `Fairlead is already running at ${where} (process ${other.pid}).`;
    if (options.reset)
      throw new Refusal(`${known} Stop it first (Ctrl-C in its window), then reset.`);
    say(`${known} Stop it with Ctrl-C in its window, or with: kill ${other.pid}`);
    return;
  }
  await awaitLeftovers(state.dir);
  writeRunning(state.dir, { pid: process.pid, address: '', children: [] });
  undo.push(() => Promise.resolve(forgetRunning(state.dir)));

  const host = process.env['HOST'] || '127.0.0.1';
  const { port, taken } = await choosePort(asked, 3000, host);
  if (taken !== undefined) say(`Port ${taken} is in use by another program; taking ${port}.`);
  const address = `http://${host === '127.0.0.1' || host === '0.0.0.0' ? 'localhost' : host}:${port}`;

  const upToDate = (done: boolean) => (done ? '' : 'unchanged');
  await step('generated code', generate, upToDate);
  const [{ urls, signIns }] = await Promise.all([
    prepare(state, options, external),
    step('web pages', buildWeb, upToDate),
  ]);

  const note = (children: readonly RunningChild[]) =>
    writeRunning(state.dir, { pid: process.pid, address, children });
  const webServer = await serveFrom(path.join(state.dir, 'web'));
  const servers = await startServers({ state, urls, host, port, address, webServer, note });
  undo.push(() => servers.stop());
  await step('API, worker and web', () => servers.ready());
  announce(address, signIns);
  if (process.env['FAIRLEAD_STOP_WHEN_READY']) await stop(0);
}

for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(name, () => onSignal(name));
if (process.connected) {
  process.once('disconnect', () => onSignal('the command that started it has ended'));
  process.channel?.unref(); // watching must not keep a finished command alive
}

try {
  await main();
} catch (error) {
  if (stopping === undefined) {
    if (error instanceof Refusal) say(`\n${error.message}`);
    else say(`\n${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    await stop(1);
  }
  await stopping;
}
