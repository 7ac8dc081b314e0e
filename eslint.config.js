// What a formatter cannot see: promises that nobody waits for, cases that nobody handles.
// Types come from the tsconfig nearest to each file. Formatting is Biome's alone.
import eslint from '@eslint/js';
import tseslint from 'typescript-eslint';

// Processes whose console output is their interface, or that log before a logger exists.
const mayPrint = [
  'apps/api/src/print-schema.ts',
  'apps/api/src/server.ts',
  'apps/api/src/worker.ts',
  'packages/database/src/**/*-cli.ts',
  'packages/database/src/generate.mjs',
  'apps/web/public/**',
  'apps/web/**/error.tsx',
];

export default tseslint.config(
  {
    ignores: [
      '**/node_modules/**',
      '**/generated/**',
      '**/.next/**',
      '**/.turbo/**',
      '.data/**',
      '**/test-results/**',
      '**/next-env.d.ts',
    ],
  },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  eslint.configs.recommended,
  ...tseslint.configs.recommended,
  {
    files: ['**/*.ts', '**/*.tsx'],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      'no-undef': 'off', // TypeScript knows better
      'no-unused-vars': 'off',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/ban-ts-comment': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': [
        'error',
        // An async function as a JSX event handler is fine where it handles its own failure.
        { checksVoidReturn: { attributes: false } },
      ],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/return-await': ['error', 'error-handling-correctness-only'],
    },
  },
  {
    // A floating number for money, or a check that is always true, starts with a loose comparison.
    rules: {
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      'no-var': 'error',
      'prefer-const': 'error',
    },
  },
  { files: ['packages/**', 'apps/**'], rules: { 'no-console': 'error' } },
  { files: mayPrint, rules: { 'no-console': 'off' } },
  { files: ['**/tests/**', 'tests/**'], rules: { 'no-console': 'off' } },
  {
    files: ['**/*.mjs', '**/*.cjs', '**/*.js'],
    languageOptions: {
      globals: Object.fromEntries(
        [
          ...[
            'process',
            'console',
            'Buffer',
            'URL',
            'module',
            'require',
            '__dirname',
            'globalThis',
          ],
          ...['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval', 'fetch', 'AbortSignal'],
          // the service worker and other scripts of the page
          ...[
            'self',
            'caches',
            'clients',
            'navigator',
            'Response',
            'Request',
            'location',
            'indexedDB',
            'window',
          ],
        ].map((name) => [name, 'readonly']),
      ),
    },
  },
);
