import { currency } from './currency.ts';
import type {
  DocumentAdjustment,
  DocumentLine,
  PricedDocument,
  TaxCategory,
} from './document-totals.ts';
import type { Adjustment } from './line-net.ts';

type Fields = Readonly<Record<string, unknown>>;

const known = {
  document: ['currency', 'lines', 'allowances', 'charges', 'paid', 'rounding'],
  line: [
    ...['id', 'quantity', 'unitPrice', 'priceBaseQuantity'],
    ...['allowances', 'charges', 'taxCategory', 'taxRate'],
  ],
} as const;

/**
 * A document as somebody wrote it in JSON, checked field by field; what its numbers must be is `documentTotals`'s
 * business.
 *
 * @param value `{currency, lines: [{id, quantity, unitPrice, priceBaseQuantity?, allowances?, charges?, taxCategory,
 *   taxRate}], allowances?, charges?, paid?, rounding?}`; every number is a decimal as text
 * @param onUnused called with the path of each field that plays no part in the totals
 * @throws TypeError that names the field and what is needed
 * @example readDocument({ currency: 'USD', lines: [] }).lines.length // → 0
 */
export function readDocument(
  value: unknown,
  onUnused: (path: string) => void = () => undefined,
): PricedDocument {
  const document = fields(value, 'The document');
  const unused = (given: Fields, names: readonly string[], path: string) => {
    for (const name of Object.keys(given)) if (!names.includes(name)) onUnused(`${path}${name}`);
  };
  unused(document, known.document, '');
  return {
    currency: currency(text(document, 'currency', '')),
    lines: list(document['lines'], 'lines').map((each, index) => {
      const path = `lines[${index}].`;
      const line = fields(each, `lines[${index}]`);
      unused(line, known.line, path);
      return lineOf(line, path);
    }),
    ...optional(document, 'allowances', taxedAdjustments),
    ...optional(document, 'charges', taxedAdjustments),
    ...optional(document, 'paid', decimal),
    ...optional(document, 'rounding', decimal),
  };
}

function lineOf(line: Fields, path: string): DocumentLine {
  return {
    id: text(line, 'id', path),
    quantity: text(line, 'quantity', path),
    unitPrice: text(line, 'unitPrice', path),
    ...optional(line, 'priceBaseQuantity', decimal, path),
    ...optional(line, 'allowances', plainAdjustments, path),
    ...optional(line, 'charges', plainAdjustments, path),
    ...taxOf(line, path),
  };
}

const taxOf = (given: Fields, path: string) => ({
  taxCategory: text(given, 'taxCategory', path) as TaxCategory,
  taxRate: text(given, 'taxRate', path),
});

const plainAdjustments = (value: unknown, path: string): Adjustment[] =>
  list(value, path).map((each, index) => {
    const where = `${path}[${index}]`;
    return { amount: text(fields(each, where), 'amount', `${where}.`) };
  });

const taxedAdjustments = (value: unknown, path: string): DocumentAdjustment[] =>
  list(value, path).map((each, index) => {
    const where = `${path}[${index}].`;
    const given = fields(each, where.slice(0, -1));
    return { amount: text(given, 'amount', where), ...taxOf(given, where) };
  });

/** A field that may be left out or null; else read by `read`. */
function optional<Name extends string, T>(
  given: Fields,
  name: Name,
  read: (value: unknown, path: string) => T,
  path = '',
): { [K in Name]?: T } {
  const value = given[name];
  if (value === undefined || value === null) return {};
  return { [name]: read(value, `${path}${name}`) } as { [K in Name]: T };
}

function fields(value: unknown, what: string): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new TypeError(`${what} is ${said(value)}; an object is needed.`);
  return value as Fields;
}

function list(value: unknown, path: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new TypeError(`${path} is ${said(value)}; a list is needed.`);
  return value;
}

const text = (given: Fields, name: string, path: string): string =>
  decimal(given[name], `${path}${name}`);

/** Text: a number of JSON may have been rounded before anybody reads it. */
function decimal(value: unknown, path: string): string {
  if (typeof value !== 'string')
    throw new TypeError(
      `${path} is ${said(value)}; text is needed, for numbers too, such as "12.50".`,
    );
  return value;
}

function said(value: unknown): string {
  if (value === undefined) return 'missing';
  const written = JSON.stringify(value);
  return written.length > 60 ? `${written.slice(0, 60)}…` : written;
}
