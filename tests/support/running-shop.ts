import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** One `npm start` as a person runs it, in a terminal of its own. */
export interface RunningShop {
  /** Of the command itself; the program that does the work is its child. */
  readonly pid: number;
  readonly ended: Promise<{ code: number | null; signal: NodeJS.Signals | null }>;
  /** All that it has printed so far. */
  printed(): string;
  /** Waits for a text in what it prints, after `from` characters; fails when the command ends before. */
  says(text: RegExp, from?: number): Promise<RegExpExecArray>;
  /** Ctrl-C: the terminal sends it to everything that runs in it. */
  interrupt(): void;
}

/** What steers `npm start`, or tells a program that it is being tested: none of it may reach the shop from here. */
const ours = new Set([
  ...['DATABASE_URL', 'MIGRATOR_DATABASE_URL', 'UPLOADS_DIR', 'SIGN_IN_SECRET', 'HOST', 'PORT'],
  ...['FAIRLEAD_STOP_WHEN_READY', 'NODE_ENV', 'NODE_OPTIONS', 'VITEST', 'npm_lifecycle_event'],
]);

/** Starts the shop on the data in `dir`. `port` left out: as if nobody had given PORT. */
export function startShop(dir: string, args: readonly string[] = [], port?: number): RunningShop {
  const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !ours.has(name)));
  const child: ChildProcess = spawn(
    process.execPath,
    [path.join(root, 'scripts/bootstrap.mjs'), 'start', ...args],
    {
      detached: true, // a process group of its own is what a terminal gives it
      stdio: ['ignore', 'pipe', 'pipe'],
      env: {
        ...env,
        FAIRLEAD_DATA_DIR: dir,
        ...(port !== undefined && { PORT: String(port) }),
      },
    },
  );
  const { pid } = child;
  if (pid === undefined) throw new Error('The system gave the command no process number');
  let text = '';
  let over = false;
  const keep = (data: Buffer) => {
    text += data.toString();
  };
  child.stdout?.on('data', keep);
  child.stderr?.on('data', keep);
  const ended = new Promise<{ code: number | null; signal: NodeJS.Signals | null }>((resolve) => {
    child.once('exit', (code, signal) => {
      over = true;
      resolve({ code, signal });
    });
  });
  const printed = () => text;
  return {
    pid,
    ended,
    printed,
    says: async (wanted, from = 0) => {
      for (;;) {
        const found = wanted.exec(text.slice(from));
        if (found) return found;
        if (over) throw new Error(`The command ended without ${String(wanted)}:\n${text}`);
        await pause(50);
      }
    },
    interrupt: () => {
      if (!over) process.kill(-pid, 'SIGINT');
    },
  };
}

export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** What a running shop has noted of itself: the program's own number, and those of its servers by name. */
export interface Noted {
  readonly pid: number;
  readonly address: string;
  readonly children: readonly { readonly name: string; readonly pid: number }[];
}

export function noted(dir: string): Noted {
  return JSON.parse(fs.readFileSync(path.join(dir, 'running.json'), 'utf8')) as Noted;
}

/** The process number of a server that the shop has noted. */
export function serverOf(dir: string, name: string): number {
  const found = noted(dir).children.find((child) => child.name === name);
  if (!found) throw new Error(`No server "${name}" is noted in ${dir}`);
  return found.pid;
}

const pidFileOf = (dir: string) => path.join(dir, 'postgres/18/postmaster.pid');

/** The process number of the database, which it keeps itself; null when it has stopped in order. */
export function databasePid(dir: string): number | null {
  if (!fs.existsSync(pidFileOf(dir))) return null;
  return Number(fs.readFileSync(pidFileOf(dir), 'utf8').split('\n')[0]);
}

/** Whether that process still runs. One that is dead, but that its parent has not counted yet, does not. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
  } catch {
    return false;
  }
  if (!fs.existsSync('/proc/self/stat')) return true;
  try {
    return !/\) [ZX] /.test(fs.readFileSync(`/proc/${pid}/stat`, 'utf8'));
  } catch {
    return false;
  }
}

/**
 * Every process that works on the data in `dir`: known by the folder in its environment, its arguments or its
 * working directory. Linux only; elsewhere what the shop has noted has to do.
 */
export function processesOn(dir: string): string[] {
  if (!fs.existsSync('/proc/self/environ')) return [];
  const read = (file: string): string => {
    try {
      return file.endsWith('cwd') ? fs.readlinkSync(file) : fs.readFileSync(file, 'utf8');
    } catch {
      return ''; // ended meanwhile, or a process of the system's own
    }
  };
  return fs
    .readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name) && Number(name) !== process.pid)
    .filter((name) =>
      ['environ', 'cmdline', 'cwd'].some((part) => read(`/proc/${name}/${part}`).includes(dir)),
    )
    .map((name) => `${name} ${read(`/proc/${name}/cmdline`).replaceAll('\0', ' ').trim()}`)
    .filter((line) => /^\d+ ./.test(line)); // a dead process that nobody has counted yet has no arguments
}
