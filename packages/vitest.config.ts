import { fileURLToPath } from 'node:url';

/** For `npx vitest` inside one of the pure packages; npm test runs them by tests/vitest.config.ts. */
export default {
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['fixed-seed.ts', 'quiet-console.ts'].map((name) =>
      fileURLToPath(new URL(`../tests/support/${name}`, import.meta.url)),
    ),
  },
};
