import type { TestProject } from 'vitest/node';
import { type TestServer, testServer } from './server.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    testServer: TestServer;
  }
}

/**
 * Projects of one run set up side by side in one process, each with this file loaded anew; and the schema engine, one
 * WebAssembly in that process, garbles its strings when two migrations use it at once. So the server is made once.
 */
const SHARED = Symbol.for('fairlead: the test server of this run');
interface Shared {
  server: ReturnType<typeof testServer>;
  projects: number;
}
const run = globalThis as { [SHARED]?: Shared };

/** Vitest's global set-up: one server and one migrated template a run, gone again at its end. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  run[SHARED] ??= { server: testServer(), projects: 0 };
  const shared = run[SHARED];
  shared.projects += 1;
  const { kind, adminUrl, template, stop } = await shared.server;
  project.provide('testServer', { kind, adminUrl, template });
  return async () => {
    shared.projects -= 1;
    if (shared.projects > 0) return;
    delete run[SHARED];
    await stop();
  };
}
