import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['../../tests/support/fixed-seed.ts'],
    globalSetup: ['../../tests/support/database-setup.ts'],
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
