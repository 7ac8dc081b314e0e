import serialize from 'canonicalize';

/**
 * Canonical JSON by RFC 8785: members sorted by UTF-16 code units, numbers as ECMAScript writes them, no blanks, UTF-8.
 * The same content is always the same bytes, whoever writes it.
 *
 * @throws RangeError for what JSON cannot hold: undefined, NaN, Infinity, a lone surrogate
 * @example canonical({ b: 2.0, a: 'x' }) // → '{"a":"x","b":2}'
 */
export function canonical(value: unknown): string {
  let text: string | undefined;
  try {
    text = serialize(value);
  } catch (error) {
    throw new RangeError(`This cannot be written as canonical JSON: ${(error as Error).message}`, {
      cause: error,
    });
  }
  if (text === undefined) throw new RangeError('Nothing cannot be written as canonical JSON');
  return text;
}

/**
 * Reads JSON that must be canonical already.
 *
 * @returns the value; null where the text is not JSON, or written in another way than RFC 8785 asks
 */
export function readCanonical(text: string): unknown {
  try {
    const value: unknown = JSON.parse(text);
    return canonical(value) === text ? value : null;
  } catch {
    return null;
  }
}
