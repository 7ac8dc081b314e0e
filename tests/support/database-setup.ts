import type { TestProject } from 'vitest/node';
import { type TestServer, testServer } from './server.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    testServer: TestServer;
  }
}

/** Vitest's global set-up: one server and one migrated template a run, gone again at its end. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { kind, adminUrl, template, stop } = await testServer();
  project.provide('testServer', { kind, adminUrl, template });
  return stop;
}
