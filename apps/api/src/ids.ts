import { Refused } from './errors.ts';

const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** The id of a row as it goes out: opaque, and unique over all types. */
export const globalId = (typename: string, id: string) =>
  Buffer.from(`${typename}:${id}`).toString('base64url');

export function parseGlobalId(given: string): { typename: string; id: string } {
  const [typename = '', id = '', ...more] = Buffer.from(given, 'base64url')
    .toString('utf8')
    .split(':');
  if (!/^[A-Z][A-Za-z]*$/.test(typename) || !uuid.test(id) || more.length > 0)
    throw new Refused('BAD_INPUT', `"${given.slice(0, 80)}" is not an id of this API.`);
  return { typename, id };
}

/** The key of a row of one type, from the id that a caller gave. Throws a refusal that names the field. */
export function keyOf(typename: string, given: string, field: string): string {
  const { typename: is, id } = parseGlobalId(given);
  if (is !== typename)
    throw new Refused(
      'BAD_INPUT',
      `${field} is the id of a ${is}; needed is the id of a ${typename}.`,
      field,
    );
  return id;
}
