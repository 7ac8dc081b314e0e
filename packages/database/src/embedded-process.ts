import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';

/** What a running server writes into its postmaster.pid. */
export type PidFile = { pid: number; port: number; ready: boolean };

/** Waits so many milliseconds. */
export const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

/** Reads postmaster.pid: line 1 the process, line 4 the port, line 8 its state. Null when there is none. */
export function readPidFile(data: string): PidFile | null {
  let lines: string[];
  try {
    lines = fs.readFileSync(path.join(data, 'postmaster.pid'), 'utf8').split('\n');
  } catch {
    return null;
  }
  const pid = Number(lines[0]);
  if (!Number.isInteger(pid) || pid <= 0) return null;
  return { pid, port: Number(lines[3] ?? 0), ready: lines[7]?.trim() === 'ready' };
}

/** True while a process of that number exists, whoever owns it. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * A text that tells this process from a later one of the same number: on Linux its start time, elsewhere "".
 */
export function birthOf(pid: number): string {
  try {
    const stat = fs.readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The command name may hold spaces and brackets; the fields after its last bracket do not.
    return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? '';
  } catch {
    return '';
  }
}

/**
 * True when that process is a PostgreSQL server of this data directory: the number of a dead server may have gone to
 * somebody else, even to another server. Where the system keeps the working directory secret (root in a container
 * without tracing rights), the program's name has to do.
 */
export function isPostgres(pid: number, data: string): boolean {
  if (!isAlive(pid)) return false;
  if (process.platform === 'linux') {
    try {
      if (fs.readFileSync(`/proc/${pid}/comm`, 'utf8').trim() !== 'postgres') return false;
    } catch {
      return false;
    }
    return workingDirectory(pid) === null || workingDirectory(pid) === fs.realpathSync(data);
  }
  if (process.platform === 'win32') return true;
  const shown = spawnSync('ps', ['-p', String(pid), '-o', 'comm='], { encoding: 'utf8' });
  return path.basename(shown.stdout.trim()).startsWith('postgres');
}

function workingDirectory(pid: number): string | null {
  try {
    return fs.readlinkSync(`/proc/${pid}/cwd`);
  } catch {
    return null;
  }
}

/**
 * The server's working processes that are still at work on this data directory. Every one of them has the data
 * directory as its working directory. Only Linux can tell; elsewhere the list is empty and the server's own check of
 * its shared memory stands guard.
 */
export function processesIn(data: string): number[] {
  if (process.platform !== 'linux') return [];
  const real = fs.realpathSync(data);
  const found: number[] = [];
  for (const name of fs.readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const pid = Number(name);
    if (workingDirectory(pid) === real && isPostgres(pid, data)) found.push(pid);
  }
  return found;
}

/**
 * After its head process was killed, a server's working processes end by themselves within moments, except one that is
 * deep in a long computation. A new server must not start beside it.
 *
 * @throws Error naming the processes that would not end
 */
export async function waitForOrphans(data: string): Promise<void> {
  const begun = Date.now();
  let asked = false;
  for (;;) {
    const left = processesIn(data);
    if (left.length === 0) return;
    const waited = Date.now() - begun;
    if (waited > 15_000) {
      throw new Error(
        `Cannot start PostgreSQL in ${data}: ${left.length} process(es) of a server that was killed are still at work there and did not end within 15 s (process ${left.join(', ')}). End them, then start again.`,
      );
    }
    if (!asked && waited > 2_000) {
      asked = true;
      for (const pid of left) {
        try {
          process.kill(pid, 'SIGTERM');
        } catch {
          // Ended by itself between the look and the signal.
        }
      }
    }
    await pause(50);
  }
}

/** A port of 127.0.0.1 that nobody listens on at this moment. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => {
        if (address && typeof address === 'object') resolve(address.port);
        else reject(new Error('The system gave no port number'));
      });
    });
  });
}

/** True when nobody listens on that port of 127.0.0.1. */
export function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = net.createServer();
    server.once('error', () => resolve(false));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)));
  });
}
