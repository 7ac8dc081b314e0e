import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { pauseAfter, supervise } from '../../scripts/processes.ts';

const folder = mkdtempSync(path.join(os.tmpdir(), 'fairlead-processes-'));
afterAll(() => rmSync(folder, { recursive: true }));

function script(name: string, body: string): string {
  const file = path.join(folder, `${name}.mjs`);
  writeFileSync(file, body);
  return file;
}

const alive = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};

async function until(holds: () => boolean): Promise<void> {
  const end = Date.now() + 10_000;
  while (!holds()) {
    if (Date.now() > end) throw new Error('It did not come about within 10 s');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

test('pauses double from half a second to half a minute', () => {
  expect([1, 2, 3, 6, 7, 50].map(pauseAfter)).toEqual([500, 1000, 2000, 16_000, 30_000, 30_000]);
});

test('a process that ends unasked is named and started again, and stops when asked', async () => {
  const said: string[] = [];
  const pids: number[] = [];
  const server = supervise(
    {
      name: 'worker',
      file: script('falters', 'console.log("begun"); setInterval(() => {}, 1000);'),
      typescript: false,
      env: {},
      logFile: path.join(folder, 'falters.log'),
      started: (pid) => pids.push(pid),
    },
    (line) => said.push(line),
  );
  await until(() => server.tail().includes('begun'));
  process.kill(pids[0] ?? 0, 'SIGKILL');
  await until(() => pids.length === 2);
  expect(server.failures()).toBe(1);
  expect(said).toEqual([expect.stringMatching(/^The worker was ended by SIGKILL; .* 0\.5 s/)]);
  await server.stop();
  expect(pids.some(alive)).toBe(false);
  expect(said).toHaveLength(1);
});

test('stopping reaches what the process itself has started', async () => {
  const note = path.join(folder, 'grandchild');
  const body = `
    import { spawn } from 'node:child_process';
    import { writeFileSync } from 'node:fs';
    const child = spawn(process.execPath, ['-e', 'process.on("SIGTERM", () => {}); setInterval(() => {}, 1000)']);
    writeFileSync(${JSON.stringify(note)}, String(child.pid));
    setInterval(() => {}, 1000);`;
  const server = supervise(
    {
      name: 'web',
      file: script('parent', body),
      typescript: false,
      env: {},
      logFile: path.join(folder, 'parent.log'),
      started: () => {},
    },
    () => {},
  );
  let grandchild = 0;
  await until(() => {
    try {
      grandchild = Number(readFileSync(note, 'utf8'));
    } catch {
      return false;
    }
    return grandchild > 0;
  });
  expect(alive(grandchild)).toBe(true);
  await server.stop();
  await until(() => !alive(grandchild));
});
