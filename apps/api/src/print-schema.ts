import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { printSchema } from 'graphql';
import { schema } from './schema.ts';

// `print-schema.ts` writes apps/api/schema.graphql; `print-schema.ts --check` only compares.
const file = fileURLToPath(new URL('../schema.graphql', import.meta.url));
const printed = `${printSchema(schema)}\n`;
if (process.argv.includes('--check')) {
  if (readFileSync(file, 'utf8') !== printed) {
    process.stderr.write(
      'apps/api/schema.graphql is not what the code says: run node --import tsx apps/api/src/print-schema.ts and commit it.\n',
    );
    process.exit(2);
  }
} else writeFileSync(file, printed);
