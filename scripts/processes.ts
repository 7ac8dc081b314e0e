import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from './paths.ts';
import { type Say, seconds } from './progress.ts';
import { signalGroup } from './run-tool.ts';

export interface ServerProcess {
  /** The name a person sees: "API", "worker", "web". */
  readonly name: string;
  /** The file Node runs (from the root of the checkout), and whether it is TypeScript. */
  readonly file: string;
  readonly typescript: boolean;
  /** Of Node itself, before everything else. */
  readonly flags?: readonly string[];
  readonly env: Record<string, string>;
  readonly logFile: string;
  /** Told the process number at each start. */
  readonly started: (pid: number) => void;
}

export interface Supervised {
  readonly name: string;
  /** Asks the process to stop, insists after eight seconds, and resolves when it is gone. */
  stop(): Promise<void>;
  /** The last lines it logged. */
  tail(): string;
  /** How often it has ended without being asked to. */
  failures(): number;
}

const longestPause = 30_000;
const provenAfter = 60_000;

/** The wait before the next start: 0.5 s after the first failure, doubling, at most 30 s. */
export function pauseAfter(failuresInARow: number): number {
  return Math.min(longestPause, 500 * 2 ** Math.max(0, failuresInARow - 1));
}

function openLog(file: string): number {
  fs.mkdirSync(path.dirname(file), { recursive: true, mode: 0o700 });
  const size = fs.statSync(file, { throwIfNoEntry: false })?.size ?? 0;
  if (size > 10_000_000) fs.renameSync(file, `${file}.before`);
  // A file and not a pipe: it can still be written to when this process has been killed.
  return fs.openSync(file, 'a', 0o600);
}

function tailOf(file: string, lines: number): string {
  const text = fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : '';
  return text.trimEnd().split('\n').slice(-lines).join('\n');
}

/**
 * Keeps one server process running: started in its own group, so that Ctrl-C reaches it only
 * through us and in order; started again, with growing pauses, when it ends without being asked.
 */
export function supervise(server: ServerProcess, say: Say): Supervised {
  let child: ChildProcess | undefined;
  let timer: NodeJS.Timeout | undefined;
  let stopping = false;
  let inARow = 0;
  let failures = 0;

  const start = () => {
    const log = openLog(server.logFile);
    const watch = pathToFileURL(path.join(root, 'scripts/stop-with-parent.mjs')).href;
    const loaders = [
      ...(server.flags ?? []),
      '--import',
      watch,
      ...(server.typescript ? ['--import', import.meta.resolve('tsx')] : []),
    ];
    const started = Date.now();
    const mine = spawn(process.execPath, [...loaders, path.resolve(root, server.file)], {
      cwd: root,
      detached: process.platform !== 'win32',
      env: { ...process.env, ...server.env },
      stdio: ['ignore', log, log, 'ipc'],
    });
    child = mine;
    fs.closeSync(log);
    if (mine.pid !== undefined) server.started(mine.pid);
    mine.once('error', (error) => say(`The ${server.name} could not be started: ${error.message}`));
    mine.once('exit', (code, signal) => {
      child = undefined;
      signalGroup(mine, 'SIGKILL'); // whatever it started and left behind
      if (stopping) return;
      failures += 1;
      inARow = Date.now() - started > provenAfter ? 1 : inARow + 1;
      const pause = pauseAfter(inARow);
      const why = signal ? `was ended by ${signal}` : `ended with code ${code ?? 'unknown'}`;
      say(
        `The ${server.name} ${why}; starting it again in ${seconds(pause)}. Its log: ${server.logFile}`,
      );
      timer = setTimeout(start, pause);
    });
  };

  start();
  return {
    name: server.name,
    failures: () => failures,
    tail: () => tailOf(server.logFile, 15),
    stop: () => {
      stopping = true;
      clearTimeout(timer);
      const mine = child;
      if (!mine) return Promise.resolve();
      return new Promise((resolve) => {
        const insist = setTimeout(() => signalGroup(mine, 'SIGKILL'), 8000);
        mine.once('exit', () => {
          clearTimeout(insist);
          resolve();
        });
        signalGroup(mine, 'SIGTERM');
      });
    },
  };
}
