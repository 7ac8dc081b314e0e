import SchemaBuilder from '@pothos/core';
import ComplexityPlugin from '@pothos/plugin-complexity';
import ErrorsPlugin from '@pothos/plugin-errors';
import PrismaPlugin from '@pothos/plugin-prisma';
import RelayPlugin from '@pothos/plugin-relay';
import type { Context } from './context.ts';
import { Refused } from './errors.ts';
import type PrismaTypes from './generated/pothos-prisma-types.ts';
import { getDatamodel } from './generated/pothos-prisma-types.ts';
import { globalId, parseGlobalId } from './ids.ts';
import { relayWords } from './relay-words.ts';

/** The most that one request may ask for; a page of the dashboard uses a tenth. */
export const limits = { complexity: 20_000, depth: 12, breadth: 250 };

export const builder = new SchemaBuilder<{
  Context: Context;
  PrismaTypes: PrismaTypes;
  DefaultFieldNullability: false;
  Scalars: {
    /** An instant, ISO 8601 with its offset. */
    DateTime: { Input: Date; Output: Date };
    /** A civil date, YYYY-MM-DD; kept as midnight UTC. */
    Date: { Input: Date; Output: Date };
    /** A whole number of minor units of the currency, as text. */
    Minor: { Input: bigint; Output: bigint };
    /** An exact decimal number, as text. */
    Decimal: { Input: string; Output: string | { toString(): string } };
  };
}>({
  plugins: [ErrorsPlugin, ComplexityPlugin, RelayPlugin, PrismaPlugin],
  defaultFieldNullability: false,
  errors: {
    defaultTypes: [Refused],
    directResult: true,
    defaultUnionOptions: {
      name: ({ fieldName }) => `${fieldName[0]?.toUpperCase()}${fieldName.slice(1)}Result`,
    },
  },
  // The client comes with the request, so that every query runs inside its shop.
  prisma: {
    client: (context) => context.read as never,
    dmmf: getDatamodel(),
    filterConnectionTotalCount: true,
    maxConnectionSize: 200,
    defaultConnectionSize: 50,
  },
  relay: {
    clientMutationId: 'omit',
    cursorType: 'String',
    encodeGlobalID: (typename, id) => globalId(typename, String(id)),
    decodeGlobalID: parseGlobalId,
    ...relayWords,
  },
  complexity: { defaultComplexity: 1, defaultListMultiplier: 8, limit: limits },
});

/** What the builder knows of types; for fields that several types share. */
export type Types = typeof builder extends PothosSchemaTypes.SchemaBuilder<infer T> ? T : never;

builder.queryType({
  description: 'What can be read. Everything is of the shop of the person signed in.',
});
builder.mutationType({
  description:
    'What can be done. Every field answers with what it made, or with a Refusal that says what to do.',
});
