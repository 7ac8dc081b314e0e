import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { root } from './paths.ts';
import { Refusal } from './progress.ts';

const quiet = {
  DO_NOT_TRACK: '1',
  TURBO_TELEMETRY_DISABLED: '1',
  NEXT_TELEMETRY_DISABLED: '1',
  CHECKPOINT_DISABLE: '1',
  npm_config_update_notifier: 'false',
};

export interface ToolResult {
  readonly code: number;
  readonly output: string;
}

const running = new Set<ChildProcess>();

/** Signals a process that was started in its own group, and everything it started. */
export function signalGroup(child: ChildProcess, signal: NodeJS.Signals): void {
  if (child.pid === undefined) return;
  try {
    if (process.platform === 'win32') child.kill(signal);
    else process.kill(-child.pid, signal);
  } catch {
    // Already gone: nothing to stop.
  }
}

/** Stops every tool that still runs; for the way out. */
export function stopTools(): void {
  for (const child of running) signalGroup(child, 'SIGTERM');
}

/** Runs a program to its end, keeps what it printed, and leaves judging the exit code to the caller. */
export function runTool(
  command: string,
  args: readonly string[],
  options: { env?: Record<string, string>; cwd?: string } = {},
): Promise<ToolResult> {
  return new Promise((resolve, reject) => {
    const windows = process.platform === 'win32';
    const child = spawn(command, args, {
      cwd: options.cwd ?? root,
      detached: !windows,
      shell: windows && command === 'npx',
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...quiet, ...options.env },
    });
    running.add(child);
    let output = '';
    const keep = (data: Buffer) => {
      output = (output + data.toString()).slice(-200_000);
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.once('error', reject);
    child.once('close', (code) => {
      running.delete(child);
      resolve({ code: code ?? 1, output });
    });
  });
}

/** A script of ours, run by the same Node with TypeScript understood. */
export function tsxArguments(script: string, args: readonly string[] = []): string[] {
  return ['--import', import.meta.resolve('tsx'), path.join(root, script), ...args];
}

/** Arguments for npx that run pnpm at the version package.json pins. */
export function pnpmArguments(args: readonly string[]): string[] {
  const manifest: unknown = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));
  const pinned = (manifest as { packageManager: string }).packageManager.split('+')[0];
  return ['--yes', String(pinned), ...args];
}

/** Runs one turbo task over the workspace; turbo looks for pnpm on PATH, so pnpm calls it. */
export async function turbo(task: string): Promise<void> {
  const args = pnpmArguments([
    'exec',
    'turbo',
    'run',
    task,
    '--output-logs=errors-only',
    '--no-color',
  ]);
  const result = await runTool('npx', args);
  if (result.code !== 0)
    throw new Refusal(`${result.output.trimEnd()}\n\n"turbo run ${task}" failed (see above).`);
}
