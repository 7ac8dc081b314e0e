import { type Column, fitMixed, type Grouping, type MixedFit } from './fit.ts';

/** A row as it came: from a CSV file every value is text. */
export type RegressRow = Readonly<Record<string, string | number | null | undefined>>;

export type RegressGroup = {
  readonly name: string;
  /** Several columns mean their combination. */
  readonly columns: readonly string[];
  readonly slopes?: readonly string[] | undefined;
  readonly correlated?: boolean | undefined;
};

/** What to fit, as an auditor writes it down. */
export type RegressRequest = {
  readonly rows: readonly RegressRow[];
  readonly response: string;
  readonly fixed?: readonly string[] | undefined;
  readonly intercept?: boolean | undefined;
  readonly groups?: readonly RegressGroup[] | undefined;
  readonly method?: 'reml' | 'ml' | undefined;
};

export type RegressAnswer = {
  readonly fixed: Readonly<Record<string, { readonly estimate: number; readonly se: number }>>;
  readonly variances: Readonly<Record<string, Readonly<Record<string, number>>>>;
  readonly residual: number;
  readonly criterion: number;
  readonly effects: Readonly<
    Record<string, Readonly<Record<string, Readonly<Record<string, number>>>>>
  >;
  readonly rows: number;
};

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const shown = (value: unknown) => JSON.stringify(value) ?? String(value);

function names(value: unknown, what: string): readonly string[] {
  if (Array.isArray(value) && value.every((name) => typeof name === 'string' && name !== ''))
    return value;
  throw new RangeError(`${what} must be a list of column names; got ${shown(value)}.`);
}

function flag(value: unknown, what: string): boolean | undefined {
  if (value === undefined || typeof value === 'boolean') return value;
  throw new RangeError(`${what} must be true or false; got ${shown(value)}.`);
}

function noOthers(given: Record<string, unknown>, allowed: readonly string[], where: string): void {
  const unknown = Object.keys(given).find((name) => !allowed.includes(name));
  if (unknown === undefined) return;
  throw new RangeError(`${where} has no "${unknown}"; it may have ${allowed.join(', ')}.`);
}

function readGroup(value: unknown, index: number): RegressGroup {
  const where = `Group ${index + 1}`;
  if (!isObject(value)) throw new RangeError(`${where} must be an object; got ${shown(value)}.`);
  noOthers(value, ['name', 'columns', 'slopes', 'correlated'], where);
  if (typeof value['name'] !== 'string' || value['name'] === '') {
    throw new RangeError(`${where} needs a name; got ${shown(value['name'])}.`);
  }
  const columns = names(value['columns'], `"columns" of group ${value['name']}`);
  if (columns.length === 0)
    throw new RangeError(`Group ${value['name']} needs at least one column.`);
  const slopes =
    value['slopes'] === undefined
      ? []
      : names(value['slopes'], `"slopes" of group ${value['name']}`);
  return {
    name: value['name'],
    columns,
    slopes,
    correlated: flag(value['correlated'], `"correlated" of group ${value['name']}`),
  };
}

/**
 * Checks a request that came as JSON, with its rows already read.
 *
 * @throws RangeError that names the part, what was given and what is needed
 */
export function readRegressRequest(given: unknown, rows: readonly RegressRow[]): RegressRequest {
  if (!isObject(given)) throw new RangeError(`A request is an object; got ${shown(given)}.`);
  noOthers(given, ['rows', 'response', 'fixed', 'intercept', 'groups', 'method'], 'The request');
  const { response, method } = given;
  if (typeof response !== 'string') {
    throw new RangeError(`"response" must name a column; got ${shown(response)}.`);
  }
  if (method !== undefined && method !== 'reml' && method !== 'ml') {
    throw new RangeError(`"method" must be "reml" or "ml"; got ${shown(method)}.`);
  }
  const groups = given['groups'] ?? [];
  if (!Array.isArray(groups))
    throw new RangeError(`"groups" must be a list; got ${shown(groups)}.`);
  return {
    rows,
    response,
    fixed: names(given['fixed'] ?? [], '"fixed"'),
    intercept: flag(given['intercept'], '"intercept"'),
    groups: groups.map(readGroup),
    method,
  };
}

/** The rows' columns, as numbers or as text. */
class Table {
  readonly #rows: readonly RegressRow[];

  constructor(rows: readonly RegressRow[]) {
    this.#rows = rows;
    if (rows.length === 0) throw new RangeError('There are no rows; at least two are needed.');
  }

  text(column: string): string[] {
    return this.#rows.map((row, index) => {
      const value = row[column];
      if (value === undefined && !Object.hasOwn(row, column)) {
        const has = Object.keys(this.#rows[0]!).join(', ');
        throw new RangeError(`Row ${index + 1} has no column ${column}; the first row has ${has}.`);
      }
      if (value === null || value === undefined || value === '') {
        throw new RangeError(`Row ${index + 1}, column ${column}: a value is needed; got none.`);
      }
      if (typeof value !== 'string' && typeof value !== 'number') {
        throw new RangeError(
          `Row ${index + 1}, column ${column}: text or a number is needed; got ${shown(value)}.`,
        );
      }
      return String(value);
    });
  }

  /** Undefined when a value is not a number: then the column is text. */
  numbers(column: string): Float64Array | undefined {
    const values = Float64Array.from(this.text(column), Number);
    return values.some(Number.isNaN) ? undefined : values;
  }

  /** A column that must be numeric. */
  covariate(column: string, what: string): Float64Array {
    const values = this.numbers(column);
    if (values !== undefined) return values;
    const text = this.text(column);
    const row = text.findIndex((value) => Number.isNaN(Number(value)));
    throw new RangeError(
      `${what}: row ${row + 1}, column ${column}: a number is needed; got "${text[row]}".`,
    );
  }
}

/** Treatment coding: a column for each level but the first in sorted order. */
function coded(table: Table, column: string): Column[] {
  const values = table.numbers(column);
  if (values !== undefined) return [{ name: column, values }];
  const text = table.text(column);
  const levels = [...new Set(text)].sort();
  if (levels.length < 2) {
    throw new RangeError(
      `Column ${column} is "${levels[0]}" in every row; a factor needs two levels.`,
    );
  }
  return levels.slice(1).map((level) => ({
    name: `${column}${level}`,
    values: Float64Array.from(text, (value) => (value === level ? 1 : 0)),
  }));
}

function termColumns(table: Table, term: string): Column[] {
  const columns = term.split(':').map((column) => column.trim());
  if (columns.includes('')) {
    throw new RangeError(
      `"fixed" has the term ${shown(term)}; a column is needed on either side of the colon.`,
    );
  }
  return columns
    .map((column) => coded(table, column))
    .reduce((left, right) =>
      left.flatMap((one) =>
        right.map((two) => ({
          name: `${one.name}:${two.name}`,
          values: one.values.map((value, row) => value * two.values[row]!),
        })),
      ),
    );
}

function grouping(
  table: Table,
  { name, columns, slopes = [], correlated }: RegressGroup,
): Grouping {
  const parts = columns.map((column) => table.text(column));
  const code = new Map<string, number>();
  const labels: string[] = [];
  const of = Int32Array.from(parts[0]!, (_, row) => {
    // Joined with a sign that no label holds, so that a:b, c and a, b:c stay two levels.
    const key = parts.map((part) => part[row]).join('\u0000');
    let index = code.get(key);
    if (index === undefined) {
      index = labels.length;
      code.set(key, index);
      labels.push(parts.map((part) => part[row]).join(':'));
    }
    return index;
  });
  return {
    name,
    levels: labels,
    of,
    slopes: slopes.map((column) => ({
      name: column,
      values: table.covariate(column, `Slope of group ${name}`),
    })),
    correlated,
  };
}

function varianceOf(fit: MixedFit, index: number, correlated: boolean): Record<string, number> {
  const { terms, covariance } = fit.groups[index]!;
  const out: Record<string, number> = {};
  for (const [i, term] of terms.entries()) out[term] = covariance[i * terms.length + i]!;
  if (!correlated) return out;
  for (let i = 0; i < terms.length; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const name = terms.length === 2 ? 'covariance' : `covariance ${terms[j]}, ${terms[i]}`;
      out[name] = covariance[i * terms.length + j]!;
    }
  }
  return out;
}

/**
 * Fits the model of a request: what `fitMixed` does, with columns and levels by name.
 *
 * A numeric column is a covariate, a text column a treatment-coded factor whose first level in sorted order is the
 * base, `a:b` an interaction.
 *
 * @throws RangeError for a missing column, a missing value, text where a number is needed, and all that `fitMixed` refuses
 */
export function regress(
  request: RegressRequest,
  progress?: (iteration: number) => void,
): RegressAnswer {
  const table = new Table(request.rows);
  const groups = (request.groups ?? []).map((group) => grouping(table, group));
  const fit = fitMixed(
    {
      y: table.covariate(request.response, 'The response'),
      fixed: (request.fixed ?? []).flatMap((term) => termColumns(table, term)),
      intercept: request.intercept,
      groups,
      method: request.method ?? 'reml',
    },
    progress,
  );
  return {
    fixed: Object.fromEntries(fit.fixed.map(({ name, estimate, se }) => [name, { estimate, se }])),
    variances: Object.fromEntries(
      fit.groups.map(({ name }, index) => [
        name,
        varianceOf(fit, index, request.groups?.[index]?.correlated !== false),
      ]),
    ),
    residual: fit.residual,
    criterion: fit.criterion,
    effects: Object.fromEntries(
      fit.groups.map(({ name, levels, terms, effects }) => [
        name,
        Object.fromEntries(
          levels.map((level, l) => [
            level,
            Object.fromEntries(terms.map((term, t) => [term, effects[l * terms.length + t]!])),
          ]),
        ),
      ]),
    ),
    rows: fit.rows,
  };
}
