import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { birthOf, isAlive } from '../packages/database/src/embedded-process.ts';

/** One server process; its birth tells it from a later process of the same number. */
export interface RunningChild {
  readonly name: string;
  readonly pid: number;
  readonly birth: string;
}

/** What a running `npm start` leaves in its state folder, so that a second one can find it. */
export interface Running {
  readonly pid: number;
  readonly address: string;
  readonly children: readonly RunningChild[];
}

export const runningChild = (name: string, pid: number): RunningChild => ({
  name,
  pid,
  birth: birthOf(pid),
});

function commandLine(pid: number): string {
  try {
    return fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ');
  } catch {
    if (fs.existsSync('/proc/self')) return '';
    return (
      spawnSync('ps', ['-o', 'command=', '-p', String(pid)], { encoding: 'utf8' }).stdout ?? ''
    );
  }
}

/** Whether this process still is a `npm start`: numbers are given out again, so the number alone proves nothing. */
const isStart = (pid: number): boolean => commandLine(pid).includes('scripts/start.ts');

/** Likewise for a server process. Where its birth cannot be read, its command line has to do; Next writes its own. */
function isServer({ pid, birth }: RunningChild): boolean {
  if (birth !== '') return isAlive(pid) && birthOf(pid) === birth;
  return /stop-with-parent\.mjs|next-server/.test(commandLine(pid));
}

const fileIn = (stateDir: string) => path.join(stateDir, 'running.json');

function read(stateDir: string): Running | undefined {
  try {
    const found: unknown = JSON.parse(fs.readFileSync(fileIn(stateDir), 'utf8'));
    if (typeof found !== 'object' || found === null) return undefined;
    const { pid, address, children } = found as Partial<Running>;
    if (typeof pid !== 'number') return undefined;
    const known = (children ?? []).filter((child) => typeof child.pid === 'number');
    return { pid, address: address ?? '', children: known };
  } catch {
    return undefined; // absent, or half-written by a process that was killed
  }
}

/** The other `npm start` on the same data, when one is alive. */
export function findRunning(stateDir: string): Running | undefined {
  const found = read(stateDir);
  if (!found || found.pid === process.pid) return undefined;
  return isStart(found.pid) ? found : undefined;
}

export function writeRunning(stateDir: string, running: Running): void {
  const temporary = `${fileIn(stateDir)}.${process.pid}`;
  fs.writeFileSync(temporary, JSON.stringify(running), { mode: 0o600 });
  fs.renameSync(temporary, fileIn(stateDir));
}

export function forgetRunning(stateDir: string): void {
  if (read(stateDir)?.pid === process.pid) fs.rmSync(fileIn(stateDir), { force: true });
}

/**
 * After a `npm start` that was killed outright: its server processes notice and stop by themselves
 * within moments. Waits for them, so that their port is free again, and ends those that hang.
 */
export async function awaitLeftovers(stateDir: string): Promise<void> {
  const left = () => (read(stateDir)?.children ?? []).filter(isServer);
  const until = Date.now() + 10_000;
  while (left().length > 0 && Date.now() < until)
    await new Promise((resolve) => setTimeout(resolve, 100));
  for (const { pid } of left()) process.kill(pid, 'SIGKILL');
}
