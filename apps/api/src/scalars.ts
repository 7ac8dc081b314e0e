import { GraphQLString } from 'graphql';
import { builder } from './builder.ts';
import { type RefusalCode, Refused, refusalCodes } from './errors.ts';

const bad = (message: string) => new Refused('BAD_INPUT', message);
const shown = (value: unknown) => JSON.stringify(value)?.slice(0, 60) ?? String(value);

builder.scalarType('DateTime', {
  description: 'An instant: ISO 8601 with its offset, such as "2031-05-04T08:30:00Z".',
  serialize: (value) => value.toISOString(),
  parseValue: (value) => {
    const instant =
      typeof value === 'string' &&
      /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d{1,6})?)?(Z|[+-]\d\d:\d\d)$/.test(value)
        ? new Date(value)
        : new Date(Number.NaN);
    if (
      Number.isNaN(instant.getTime()) ||
      instant.getUTCFullYear() < 1900 ||
      instant.getUTCFullYear() > 2200
    )
      throw bad(
        `${shown(value)} is not an instant: needed is ISO 8601 with an offset, between 1900 and 2200, such as "2031-05-04T08:30:00Z".`,
      );
    return instant;
  },
});

builder.scalarType('Date', {
  description: 'A civil date: "2031-05-04".',
  serialize: (value) => value.toISOString().slice(0, 10),
  parseValue: (value) => {
    const date =
      typeof value === 'string' && /^\d{4}-\d\d-\d\d$/.test(value)
        ? new Date(`${value}T00:00:00Z`)
        : new Date(Number.NaN);
    if (
      Number.isNaN(date.getTime()) ||
      date.toISOString().slice(0, 10) !== value ||
      date.getUTCFullYear() < 1900 ||
      date.getUTCFullYear() > 2200
    )
      throw bad(
        `${shown(value)} is not a date: needed is a real day between 1900 and 2200, such as "2031-05-04".`,
      );
    return date;
  },
});

builder.scalarType('Minor', {
  description:
    'An amount in whole minor units of its currency (cents), as text: "124000" is 1,240.00 where the currency has two decimals.',
  serialize: (value) => value.toString(),
  parseValue: (value) => {
    if (typeof value !== 'string' || !/^-?\d{1,15}$/.test(value))
      throw bad(
        `${shown(value)} is not an amount: needed is a whole number of minor units as text, at most 15 digits, such as "124000".`,
      );
    return BigInt(value);
  },
});

builder.scalarType('Decimal', {
  description: 'An exact decimal number as text: "3.2".',
  serialize: (value) => value.toString(),
  parseValue: (value) => {
    if (typeof value !== 'string' || !/^-?\d{1,9}(\.\d{1,6})?$/.test(value))
      throw bad(
        `${shown(value)} is not a decimal number: needed is text with at most 9 digits before the point and 6 after, such as "3.2".`,
      );
    return value;
  },
});

const LONGEST_TEXT = 10_000;

// Every text of the API passes here: what PostgreSQL cannot keep, or nobody would read, is refused at the door.
const parseText = (value: unknown): string => {
  if (typeof value !== 'string') throw bad(`${shown(value)} is not text.`);
  if (value.length > LONGEST_TEXT)
    throw bad(`A text of ${value.length} characters is too long: at most ${LONGEST_TEXT}.`);
  if (value.includes('\u0000') || /\p{Surrogate}/u.test(value))
    throw bad('A text holds a character that cannot be kept.');
  return value;
};
GraphQLString.parseValue = parseText;
const parseLiteral = GraphQLString.parseLiteral;
GraphQLString.parseLiteral = (node, variables) => parseText(parseLiteral(node, variables));

const CodeEnum = builder.enumType('RefusalCode', {
  description: 'Why something was refused.',
  values: Object.fromEntries(
    Object.entries(refusalCodes).map(([code, { means }]) => [
      code,
      { value: code as RefusalCode, description: means },
    ]),
  ) as Record<RefusalCode, { value: RefusalCode; description: string }>,
});

builder.objectType(Refused, {
  name: 'Refusal',
  description: 'A no that the user can act on.',
  fields: (t) => ({
    code: t.field({
      type: CodeEnum,
      description: 'The kind of no.',
      resolve: (refused) => refused.code,
    }),
    message: t.exposeString('message', {
      description: 'One sentence: what was refused, the value given and the value needed.',
    }),
    field: t.exposeString('field', {
      nullable: true,
      description: 'The input field that it is about, where there is one.',
    }),
  }),
});
