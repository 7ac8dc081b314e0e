import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

/** What a running `npm start` leaves in its state folder, so that a second one can find it. */
export interface Running {
  readonly pid: number;
  readonly address: string;
  readonly children: readonly number[];
}

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

/** Whether this process still is what wrote the file: numbers are given out again, so the number alone proves nothing. */
function isOurs(pid: number, part: string): boolean {
  return commandLine(pid).includes(part);
}

const fileIn = (stateDir: string) => path.join(stateDir, 'running.json');

function read(stateDir: string): Running | undefined {
  try {
    const found: unknown = JSON.parse(fs.readFileSync(fileIn(stateDir), 'utf8'));
    if (typeof found !== 'object' || found === null) return undefined;
    const { pid, address, children } = found as Partial<Running>;
    if (typeof pid !== 'number') return undefined;
    return { pid, address: address ?? '', children: children ?? [] };
  } catch {
    return undefined; // absent, or half-written by a process that was killed
  }
}

/** The other `npm start` on the same data, when one is alive. */
export function findRunning(stateDir: string): Running | undefined {
  const found = read(stateDir);
  if (!found || found.pid === process.pid) return undefined;
  return isOurs(found.pid, 'scripts/start.ts') ? found : undefined;
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
  const left = () =>
    (read(stateDir)?.children ?? []).filter((pid) => isOurs(pid, 'stop-with-parent.mjs'));
  const until = Date.now() + 10_000;
  while (left().length > 0 && Date.now() < until)
    await new Promise((resolve) => setTimeout(resolve, 100));
  for (const pid of left()) process.kill(pid, 'SIGKILL');
}
