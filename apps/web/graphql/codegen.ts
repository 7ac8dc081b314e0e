import type { CodegenConfig } from '@graphql-codegen/cli';

/** Paths are relative to apps/web, where `pnpm generate` runs. */
const config: CodegenConfig = {
  schema: '../api/schema.graphql',
  documents: [
    'app/**/*.{ts,tsx}',
    'features/**/*.{ts,tsx}',
    'components/**/*.{ts,tsx}',
    'lib/**/*.{ts,tsx}',
  ],
  ignoreNoDocuments: true,
  generates: {
    'graphql/generated/': {
      preset: 'client',
      presetConfig: { fragmentMasking: false },
      config: {
        documentMode: 'string',
        useTypeImports: true,
        enumsAsTypes: true,
        strictScalars: false,
        defaultScalarType: 'string',
      },
    },
  },
};

export default config;
