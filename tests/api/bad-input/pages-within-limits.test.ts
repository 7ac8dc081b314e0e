import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import {
  type GraphQLInputObjectType,
  type GraphQLInputType,
  isEnumType,
  isListType,
  isNonNullType,
  isRequiredInputField,
  isScalarType,
  parse,
  typeFromAST,
} from 'graphql';
import { expect, it } from 'vitest';
import { schema } from '../../../apps/api/src/schema.ts';
import { overLimits } from '../../../apps/api/src/weight.ts';

const web = path.join(import.meta.dirname, '../../../apps/web');
const files = ['features', 'lib', 'components']
  .flatMap((folder) =>
    readdirSync(path.join(web, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      path.join(web, folder, name),
    ),
  )
  .filter((name) => name.endsWith('.ts') && /graphql\(\s*`/.test(readFileSync(name, 'utf8')));

const scalars: Record<string, unknown> = {
  ID: 'V29ya0l0ZW06MQ',
  String: 'words',
  Int: 1,
  Float: 1,
  Boolean: true,
  DateTime: '2031-05-04T06:00:00Z',
  Date: '2031-05-04',
  Minor: '1',
  Decimal: '1',
};
/** Something that passes for a variable of a type: what is needed of it and no more. */
function some(type: GraphQLInputType): unknown {
  if (!isNonNullType(type)) return null;
  const of = type.ofType;
  if (isListType(of)) return [];
  if (isEnumType(of)) return of.getValues()[0]?.name;
  if (isScalarType(of)) return scalars[of.name];
  return Object.fromEntries(
    Object.values((of as GraphQLInputObjectType).getFields())
      .filter(isRequiredInputField)
      .map((field) => [field.name, some(field.type)]),
  );
}

// A page that asks for more than the shop answers is empty, and the bench without a network has nothing to show.
it('every request of a page is within what the shop answers', async () => {
  const over = new Map<string, string[]>();
  for (const name of files) {
    const documents = Object.values((await import(name)) as Record<string, unknown>)
      .filter((each): each is object => typeof each === 'object' && each !== null)
      .map(String)
      .filter((text) => /^\s*(query|mutation|subscription)\b/.test(text));
    for (const text of documents) {
      const [definition] = parse(text).definitions;
      if (definition?.kind !== 'OperationDefinition') throw new Error(`${name}: no operation`);
      const variables = Object.fromEntries(
        (definition.variableDefinitions ?? []).map(({ variable, type }) => [
          variable.name.value,
          some(typeFromAST(schema, type as never) as GraphQLInputType),
        ]),
      );
      over.set(definition.name?.value ?? name, overLimits(text, variables));
    }
  }
  expect(over.size).toBeGreaterThan(100);
  expect([...over].filter(([, figures]) => figures.length > 0)).toEqual([]);
});
