import type { PrismaPg } from '@prisma/adapter-pg';
import {
  ColumnTypeEnum,
  type SqlDriverAdapter,
  type SqlMigrationAwareDriverAdapterFactory,
  type SqlQuery,
  type SqlQueryable,
  type SqlResultSet,
} from '@prisma/driver-adapter-utils';
import type { Client, QueryArrayResult } from 'pg';

/*
 * Two faults of @prisma/adapter-pg 7.10.0 stand in the way of the migration engine. They are mended here, on the adapters
 * of the migration step alone; the application's own client is untouched. tests/migrate.test.ts holds each fault and each
 * remedy, so an upgrade that mends or moves one of them is noticed.
 */

/** The parts of adapter-pg's queryable that its types keep private. */
type Insides = {
  client: Pick<Client, 'query'>;
  performIO(query: SqlQuery): Promise<QueryArrayResult>;
  onError(error: unknown): never;
};

/** PostgreSQL's internal one-byte "char", which its catalogues are full of, and the closest type that the adapter knows. */
const internalChar = 18;
const paddedChar = 1042;

function insidesOf(adapter: SqlQueryable): Insides {
  const insides = adapter as unknown as Insides;
  const whole =
    typeof insides.client?.query === 'function' &&
    typeof insides.performIO === 'function' &&
    typeof insides.onError === 'function';
  if (!whole) {
    throw new TypeError(
      '@prisma/adapter-pg is built differently from 7.10.0: look at adapter-patches.ts before using this version',
    );
  }
  return insides;
}

/**
 * Fault 1: `executeScript` cuts a migration at every semicolon, which breaks a function body in `$$` and runs the pieces
 * outside any common transaction. Remedy: the whole file as one simple query, as the native engine sends it.
 */
export function sendScriptsWhole(adapter: SqlDriverAdapter): void {
  const insides = insidesOf(adapter);
  adapter.executeScript = async (script) => {
    try {
      await insides.client.query(script);
    } catch (error) {
      insides.onError(error);
    }
  };
}

/** Fault 2: a result column of type "char" (OID 18) is refused, so the catalogues cannot be described. */
export function readInternalChar(adapter: SqlQueryable): void {
  const insides = insidesOf(adapter);
  const performIO = insides.performIO.bind(adapter);
  const queryRaw = adapter.queryRaw.bind(adapter);
  const charColumns = new WeakMap<SqlQuery, number[]>();
  insides.performIO = async (query) => {
    const result = await performIO(query);
    const found: number[] = [];
    result.fields.forEach((field, index) => {
      if (field.dataTypeID !== internalChar) return;
      found.push(index);
      field.dataTypeID = paddedChar;
    });
    charColumns.set(query, found);
    return result;
  };
  adapter.queryRaw = async (query): Promise<SqlResultSet> => {
    const result = await queryRaw(query);
    for (const index of charColumns.get(query) ?? []) {
      result.columnTypes[index] = ColumnTypeEnum.Character;
    }
    return result;
  };
}

function mend(adapter: SqlDriverAdapter): SqlDriverAdapter {
  sendScriptsWhole(adapter);
  readInternalChar(adapter);
  const startTransaction = adapter.startTransaction.bind(adapter);
  adapter.startTransaction = async (level) => {
    const transaction = await startTransaction(level);
    readInternalChar(transaction);
    return transaction;
  };
  return adapter;
}

/**
 * The adapter factory for the migration engine, with both faults mended on every adapter it makes. The engine never ends
 * its connections, one of which holds the migration lock: `dispose` does.
 */
export function mendedFactory(
  factory: PrismaPg,
): SqlMigrationAwareDriverAdapterFactory & { dispose(): Promise<void> } {
  const made = new Set<SqlDriverAdapter>();
  const keep = (adapter: SqlDriverAdapter): SqlDriverAdapter => {
    made.add(mend(adapter));
    const dispose = adapter.dispose.bind(adapter);
    adapter.dispose = async () => {
      if (made.delete(adapter)) await dispose();
    };
    return adapter;
  };
  return {
    provider: factory.provider,
    adapterName: factory.adapterName,
    connect: async () => keep(await factory.connect()),
    connectToShadowDb: async () => keep(await factory.connectToShadowDb()),
    dispose: async () => {
      for (const adapter of [...made]) await adapter.dispose();
    },
  };
}
