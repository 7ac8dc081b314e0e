import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import type {
  MigrationList,
  SchemaContainer,
  SchemaEngine,
} from '@prisma/schema-engine-wasm/schema_engine_bg';
import pg from 'pg';
import { mendedFactory } from './adapter-patches.ts';

/*
 * Prisma's migration engine as WebAssembly: the same engine and the same `_prisma_migrations` bookkeeping as
 * `prisma migrate deploy`, without the native program that has to be downloaded.
 */

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** Where the schema and the migrations lie; tests point it elsewhere. */
export type MigrationFiles = { schemaDir: string; migrationsDir: string };

/** The repository's own schema and migrations. */
export const repositoryFiles: MigrationFiles = {
  schemaDir: path.join(root, 'prisma', 'schema'),
  migrationsDir: path.join(root, 'prisma', 'migrations'),
};

type EngineModule = {
  SchemaEngine: typeof SchemaEngine;
  __wbg_set_wasm(exports: object): void;
};

/** What is used of the WebAssembly interface, whose types come with the browser's only. */
type Assembly = {
  instantiate(
    code: Uint8Array,
    imports: Record<string, object>,
  ): Promise<{ instance: { exports: { __wbindgen_start(): void } } }>;
};

let loaded: Promise<EngineModule> | undefined;

/** Loads the engine once a process. It reports a crash through a registry that it expects on the global object. */
function loadEngine(): Promise<EngineModule> {
  loaded ??= (async () => {
    const crash = {
      message: '',
      set_message(text: string) {
        crash.message = text;
      },
    };
    Object.assign(globalThis, { PRISMA_WASM_PANIC_REGISTRY: crash });
    const entry = createRequire(import.meta.url).resolve(
      '@prisma/schema-engine-wasm/schema_engine_bg',
    );
    const glue = (await import('@prisma/schema-engine-wasm/schema_engine_bg')) as EngineModule;
    const code = fs.readFileSync(path.join(path.dirname(entry), 'schema_engine_bg.wasm'));
    const { WebAssembly: assembly } = globalThis as unknown as { WebAssembly: Assembly };
    const { instance } = await assembly.instantiate(code, { './schema_engine_bg.js': glue });
    glue.__wbg_set_wasm(instance.exports);
    instance.exports.__wbindgen_start();
    return glue;
  })();
  return loaded;
}

function schemaFiles(files: MigrationFiles): SchemaContainer[] {
  return fs
    .readdirSync(files.schemaDir)
    .filter((name) => name.endsWith('.prisma'))
    .sort()
    .map((name) => {
      const file = path.join(files.schemaDir, name);
      return { path: file, content: fs.readFileSync(file, 'utf8') };
    });
}

function migrationList(files: MigrationFiles): MigrationList {
  const lock = path.join(files.migrationsDir, 'migration_lock.toml');
  const names = fs
    .readdirSync(files.migrationsDir, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
  return {
    baseDir: files.migrationsDir,
    lockfile: {
      path: 'migration_lock.toml',
      content: fs.existsSync(lock) ? fs.readFileSync(lock, 'utf8') : null,
    },
    shadowDbInitScript: '',
    migrationDirectories: names.map((name) => ({
      path: name,
      migrationFile: {
        path: 'migration.sql',
        content: {
          tag: 'ok',
          value: fs.readFileSync(path.join(files.migrationsDir, name, 'migration.sql'), 'utf8'),
        },
      },
    })),
  };
}

const filters = { externalTables: [], externalEnums: [] };

async function withEngine<T>(
  url: string,
  files: MigrationFiles,
  use: (engine: SchemaEngine) => Promise<T>,
): Promise<T> {
  const { SchemaEngine } = await loadEngine();
  const factory = mendedFactory(new PrismaPg({ connectionString: url }));
  const datamodels = schemaFiles(files).map((file): [string, string] => [file.path, file.content]);
  try {
    const engine = await SchemaEngine.new(
      { datamodels },
      () => {},
      bindMigrationAwareSqlAdapterFactory(factory),
    );
    try {
      return await use(engine);
    } finally {
      engine.free();
    }
  } finally {
    await factory.dispose();
  }
}

/**
 * Applies the migrations that the database does not have yet, each file in one transaction.
 *
 * @returns the names of those applied now
 * @throws Error with PostgreSQL's own words when a file fails; nothing of that file stays
 */
export async function deploy(
  migratorUrl: string,
  files: MigrationFiles = repositoryFiles,
): Promise<string[]> {
  const applied = await withEngine(migratorUrl, files, (engine) =>
    engine.applyMigrations({ migrationsList: migrationList(files), filters }),
  );
  return applied.appliedMigrationNames;
}

/**
 * What the migrations leave undone of the Prisma schema, as SQL; null when the two agree. It builds the migrations in a
 * database of its own beside the one named in the URL, and drops it again.
 */
export async function drift(
  migratorUrl: string,
  files: MigrationFiles = repositoryFiles,
): Promise<string | null> {
  const name = `fairlead_shadow_${randomBytes(6).toString('hex')}`;
  const shadow = new URL(migratorUrl);
  shadow.pathname = `/${name}`;
  const client = new pg.Client({ connectionString: migratorUrl });
  await client.connect();
  try {
    await client.query(`create database ${name}`);
    const difference = await withEngine(shadow.href, files, (engine) =>
      engine.diff({
        from: { tag: 'migrations', ...migrationList(files) },
        to: { tag: 'schemaDatamodel', files: schemaFiles(files) },
        script: true,
        exitCode: true,
        filters,
      }),
    );
    return difference.exitCode === 2 ? difference.stdout : null;
  } finally {
    await untilLeft(client, name);
    await client.query(`drop database if exists ${name} with (force)`);
    await client.end();
  }
}

/** Waits until the engine's connections have ended: one cut off in its goodbye throws where nobody can catch it. */
async function untilLeft(client: pg.Client, database: string): Promise<void> {
  for (let tries = 0; tries < 150; tries += 1) {
    const { rowCount } = await client.query('select from pg_stat_activity where datname = $1', [
      database,
    ]);
    if (rowCount === 0) return;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

/** The SQL to put into the next migration, or an empty text when there is nothing to do. For authors. */
export async function createMigrationSql(
  migratorUrl: string,
  files: MigrationFiles = repositoryFiles,
): Promise<string> {
  return (await drift(migratorUrl, files)) ?? '';
}
