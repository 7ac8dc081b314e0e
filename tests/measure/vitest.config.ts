import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Measures over HTTP: in tests/, `npx vitest run --config measure/vitest.config.ts`. No test run depends on them. */
export default defineConfig({
  resolve: {
    alias: [{ find: /^graphql$/, replacement: createRequire(import.meta.url).resolve('graphql') }],
  },
  test: {
    root: fileURLToPath(new URL('..', import.meta.url)),
    include: ['measure/*.ts'],
    exclude: ['measure/vitest.config.ts', 'measure/*-worker.ts'],
    globalSetup: ['support/database-setup.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
