import { createHash } from 'node:crypto';
import { type CustomAdapter, createAdapterFactory } from 'better-auth/adapters';
import type pg from 'pg';

/*
 * The sign-in library's view of schema `identity`. Two things are ours to decide here and not the library's: its names are
 * translated into ours, and a session's token never reaches the database. The table keeps the token's digest; a row that
 * was asked for by its token is given back with the token, because only then did the asker know it.
 */

/** SHA-256 of a session's token, in hexadecimal: what the table keeps. */
export const digestOf = (token: string): string => createHash('sha256').update(token).digest('hex');

const tables: Record<string, string> = {
  user: 'account',
  account: 'credential',
  session: 'session',
  verification: 'verification',
};

/** Fields whose column is not simply their name with underscores. */
const columns: Record<string, Record<string, string>> = {
  account: { userId: 'account_id', accountId: 'provider_account_id' },
  session: { userId: 'account_id' },
};

type Condition = Parameters<CustomAdapter['findOne']>[0]['where'][number];
type Row = Record<string, unknown>;

function tableOf(model: string): string {
  const table = tables[model];
  if (!table) throw new RangeError(`Schema identity has no table for "${model}"`);
  return `identity.${table}`;
}

function columnOf(model: string, field: string): string {
  const column =
    columns[model]?.[field] ?? field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
  if (!/^[a-z_]+$/.test(column)) throw new RangeError(`"${field}" is not a column's name`);
  return column;
}

function fieldOf(model: string, column: string): string {
  for (const [field, special] of Object.entries(columns[model] ?? {})) {
    if (special === column) return field;
  }
  return column.replace(/_([a-z])/g, (_all, letter: string) => letter.toUpperCase());
}

const isToken = (model: string, field: string): boolean => model === 'session' && field === 'token';

function stored(model: string, field: string, value: unknown): unknown {
  if (!isToken(model, field)) return value;
  if (Array.isArray(value)) return value.map((each) => digestOf(String(each)));
  return digestOf(String(value));
}

function rowOf(model: string, row: Row, token: unknown): Row {
  const named = Object.fromEntries(
    Object.entries(row).map(([column, value]) => [fieldOf(model, column), value]),
  );
  return model === 'session' && typeof token === 'string' ? { ...named, token } : named;
}

/** The token that a session was asked for by, if it was. */
function askedToken(model: string, where: readonly Condition[]): unknown {
  return where.find((each) => isToken(model, each.field) && (each.operator ?? 'eq') === 'eq')
    ?.value;
}

const comparisons: Record<string, string> = {
  eq: '=',
  ne: '<>',
  lt: '<',
  lte: '<=',
  gt: '>',
  gte: '>=',
};

function conditions(model: string, where: readonly Condition[], values: unknown[]): string {
  if (where.length === 0) return '';
  const parts = where.map(({ field, operator = 'eq', value, connector }) => {
    if (connector === 'OR') throw new RangeError('Schema identity is never searched with "or"');
    const column = columnOf(model, field);
    if (value === null) return `${column} is ${operator === 'ne' ? 'not ' : ''}null`;
    values.push(stored(model, field, value));
    if (operator === 'in') return `${column} = any($${values.length})`;
    const comparison = comparisons[operator];
    if (!comparison) throw new RangeError(`Schema identity is never searched with "${operator}"`);
    return `${column} ${comparison} $${values.length}`;
  });
  return ` where ${parts.join(' and ')}`;
}

function assignments(model: string, update: Row, values: unknown[]): string {
  return Object.entries(update)
    .map(([field, value]) => {
      values.push(stored(model, field, value));
      return `${columnOf(model, field)} = $${values.length}`;
    })
    .join(', ');
}

/** The adapter for the sign-in library, over connections in the role fairlead_identity. */
export function identityAdapter(pool: pg.Pool): ReturnType<typeof createAdapterFactory> {
  const query = async (sql: string, values: unknown[]) => pool.query<Row>(sql, values);

  async function find(model: string, where: readonly Condition[], rest: string): Promise<Row[]> {
    const values: unknown[] = [];
    const { rows } = await query(
      `select * from ${tableOf(model)}${conditions(model, where, values)}${rest}`,
      values,
    );
    return rows.map((row) => rowOf(model, row, askedToken(model, where)));
  }

  async function change(model: string, where: readonly Condition[], update: Row): Promise<Row[]> {
    const values: unknown[] = [];
    const set = assignments(model, update, values);
    const { rows } = await query(
      `update ${tableOf(model)} set ${set}${conditions(model, where, values)} returning *`,
      values,
    );
    return rows.map((row) => rowOf(model, row, update.token ?? askedToken(model, where)));
  }

  async function remove(model: string, where: readonly Condition[]): Promise<number> {
    const values: unknown[] = [];
    const { rowCount } = await query(
      `delete from ${tableOf(model)}${conditions(model, where, values)}`,
      values,
    );
    return rowCount ?? 0;
  }

  return createAdapterFactory({
    config: {
      adapterId: 'fairlead-identity',
      adapterName: 'Schema identity',
      supportsUUIDs: true,
      supportsDates: true,
      supportsBooleans: true,
      supportsJSON: true,
      // The tables make their own ids.
      disableIdGeneration: true,
      transaction: false,
    },
    // The library's types promise each caller the shape it asked for; rows are what they are.
    adapter: (): CustomAdapter => ({
      async create({ model, data }) {
        const values: unknown[] = [];
        const fields = Object.keys(data);
        for (const field of fields) values.push(stored(model, field, data[field]));
        const { rows } = await query(
          `insert into ${tableOf(model)} (${fields.map((field) => columnOf(model, field)).join(', ')})
           values (${values.map((_value, index) => `$${index + 1}`).join(', ')}) returning *`,
          values,
        );
        return rowOf(model, rows[0] ?? {}, data.token) as typeof data;
      },
      async findOne<T>({ model, where }: { model: string; where: Condition[] }) {
        return ((await find(model, where, ' limit 1'))[0] ?? null) as T | null;
      },
      async findMany<T>(asked: {
        model: string;
        where?: Condition[] | undefined;
        limit: number;
        sortBy?: { field: string; direction: 'asc' | 'desc' } | undefined;
        offset?: number | undefined;
      }) {
        const { model, where = [], sortBy, limit, offset = 0 } = asked;
        const order = sortBy
          ? ` order by ${columnOf(model, sortBy.field)} ${sortBy.direction === 'desc' ? 'desc' : 'asc'}`
          : '';
        return (await find(
          model,
          where,
          `${order} limit ${Number(limit)} offset ${Number(offset)}`,
        )) as T[];
      },
      async count({ model, where = [] }) {
        const values: unknown[] = [];
        const { rows } = await query(
          `select count(*)::int as n from ${tableOf(model)}${conditions(model, where, values)}`,
          values,
        );
        return Number(rows[0]?.n ?? 0);
      },
      async update<T>({ model, where, update }: { model: string; where: Condition[]; update: T }) {
        return ((await change(model, where, update as Row))[0] ?? null) as T | null;
      },
      async updateMany({ model, where, update }) {
        return (await change(model, where, update)).length;
      },
      async delete({ model, where }) {
        await remove(model, where);
      },
      async deleteMany({ model, where }) {
        return remove(model, where);
      },
    }),
  });
}
