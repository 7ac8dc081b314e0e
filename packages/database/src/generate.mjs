import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/*
 * `prisma generate` needs no engine, yet it looks for the schema engine's program first and would download it. Any
 * existing file satisfies it. Never set this variable for `prisma migrate`: that would then end well and do nothing.
 */
const root = fileURLToPath(new URL('../../../', import.meta.url));
const here = fileURLToPath(new URL('../', import.meta.url));
const manifest = createRequire(import.meta.url).resolve('prisma/package.json');
const program = path.join(path.dirname(manifest), 'build', 'index.js');

const done = spawnSync(process.execPath, [program, 'generate', '--schema', 'prisma/schema'], {
  cwd: root,
  stdio: 'inherit',
  env: {
    ...process.env,
    PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
    CHECKPOINT_DISABLE: '1',
    PRISMA_HIDE_UPDATE_MESSAGE: '1',
    // The Pothos generator is a dependency of this package, not of the root.
    PATH: [path.join(here, 'node_modules', '.bin'), process.env.PATH].join(path.delimiter),
  },
});
process.exit(done.status ?? 1);
