import { createRequire } from 'node:module';
import { defineConfig } from 'vitest/config';

const setup = { setupFiles: ['support/fixed-seed.ts', 'support/quiet-console.ts'] };

const withDatabase = {
  ...setup,
  globalSetup: ['support/database-setup.ts'],
  testTimeout: 60_000,
  hookTimeout: 120_000,
};

// Vite would take graphql's .mjs for our files while Node takes its .js for the libraries: two GraphQLs that reject each other.
const resolve = {
  alias: [{ find: /^graphql$/, replacement: createRequire(import.meta.url).resolve('graphql') }],
};

/**
 * Files in one process, one after the other: what they all load, the whole API, takes seconds to load. They share no
 * state, since each makes its own API, database and shops; a file that would change a module or a clock must not be here.
 */
const shared = { isolate: false };

/** scripts/test-steps.ts says which of these npm test runs in which step. */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'packages',
          ...setup,
          include: ['../packages/*/tests/**/*.test.ts'],
          exclude: ['../packages/database/**'],
        },
      },
      '../packages/database',
      '../apps/*',
      { test: { name: 'commands', ...setup, include: ['commands/**/*.test.ts'] } },
      { resolve, test: { name: 'outside', include: ['outside/**/*.test.ts'], ...withDatabase } },
      { resolve, test: { name: 'api', include: ['api/**/*.test.ts'], ...withDatabase, ...shared } },
      { resolve, test: { name: 'faults', include: ['faults/**/*.test.ts'], ...withDatabase } },
    ],
  },
});
